package panelbook.bench.load;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Locale;
import java.util.UUID;
import org.postgresql.PGConnection;

/**
 * Readings a second, from a run in the client's memory to committed rows: through {@code POST /runs} with all its judging,
 * and by bare COPY into scratch tables of the same shape in the same database. One connection each, one run a commit.
 */
final class Ingest {
    private static final int UNCOUNTED = 40;
    private static final int COUNTED = Integer.getInteger("panelbook.rounds", 41);

    private final Service service;
    private final Connection database;
    private final String presetId;
    private final String instrumentId;

    Ingest(Service service, Connection database, String presetId, String instrumentId) {
        this.service = service;
        this.database = database;
        this.presetId = presetId;
        this.instrumentId = instrumentId;
    }

    void of(int patches) throws Exception {
        var runs = new Runs(patches);
        // the baseline that every later run is judged by holds the same patches: the dearest case
        service.post("/runs", runs.upload(UUID.randomUUID(), presetId, instrumentId, "as-left", 30_000), 201);
        table("scratch_guarded", "primary key (run_id, red, green, blue), foreign key (run_id) references run");
        table("scratch_plain", "primary key (run_id, red, green, blue)");
        var post = new Times(UNCOUNTED);
        var guarded = new Times(UNCOUNTED);
        var plain = new Times(UNCOUNTED);
        // in turns, so that what else the machine does falls on all three alike
        for (var round = 0; round < UNCOUNTED + COUNTED; round++) {
            var id = UUID.randomUUID();
            var request = service.post("/runs", runs.upload(id, presetId, instrumentId, "check", 20_000 - round));
            var rows = runs.rows(id);
            post.time(() -> service.send(request, 201));
            guarded.time(() -> copy("scratch_guarded", rows));
            plain.time(() -> copy("scratch_plain", rows));
        }
        Database.execute(database, "drop table scratch_guarded, scratch_plain");
        say("POST /runs, judged and committed", patches, post, guarded);
        say("COPY, primary key and foreign key", patches, guarded, guarded);
        say("COPY, primary key only", patches, plain, guarded);
    }

    private void table(String name, String constraints) throws SQLException {
        Database.execute(
                database,
                "create table " + name + " (run_id uuid not null, red integer not null check (red between 0 and 65535),"
                        + " green integer not null check (green between 0 and 65535),"
                        + " blue integer not null check (blue between 0 and 65535), seq integer not null,"
                        + " x float8 not null check (x >= 0 and x < 'infinity'),"
                        + " y float8 not null check (y >= 0 and y < 'infinity'),"
                        + " z float8 not null check (z >= 0 and z < 'infinity'), " + constraints + ")");
    }

    private void copy(String table, byte[] rows) throws SQLException, IOException {
        database.unwrap(PGConnection.class)
                .getCopyAPI()
                .copyIn("copy " + table + " from stdin", new ByteArrayInputStream(rows));
    }

    private static void say(String what, int patches, Times times, Times reference) {
        System.out.printf(
                Locale.ROOT,
                "%-34s %6d readings  %9.0f readings/s  %.2f of COPY  %s%n",
                what,
                patches,
                patches / times.median(),
                reference.median() / times.median(),
                times.inMilliseconds());
    }
}
