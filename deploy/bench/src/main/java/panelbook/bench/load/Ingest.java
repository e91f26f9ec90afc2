package panelbook.bench.load;

import java.io.ByteArrayInputStream;
import java.net.http.HttpRequest;
import java.sql.Connection;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.postgresql.PGConnection;

/**
 * Readings a second, from a run in the client's memory to committed rows: through {@code POST /runs} with all its judging,
 * and by bare COPY into scratch tables of the same shape in the same database. One connection each, one run a commit.
 */
final class Ingest {
    private static final int UNCOUNTED = 15;
    private static final int COUNTED = 31;

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
        var ids = new ArrayList<UUID>();
        var requests = new ArrayList<HttpRequest>();
        // the baseline that every later run is judged by holds the same patches: the dearest case
        service.post("/runs", runs.upload(UUID.randomUUID(), presetId, instrumentId, "as-left", 1000), 201);
        for (var round = 0; round < UNCOUNTED + COUNTED; round++) {
            ids.add(UUID.randomUUID());
            requests.add(
                    service.post("/runs", runs.upload(ids.get(round), presetId, instrumentId, "check", 900 - round)));
        }
        var post = Times.of(UNCOUNTED, COUNTED, round -> service.send(requests.get(round), 201));
        var guarded = copy(runs, ids, "primary key (run_id, red, green, blue), foreign key (run_id) references run");
        var plain = copy(runs, ids, "primary key (run_id, red, green, blue)");
        say("POST /runs, judged and committed", patches, post, guarded);
        say("COPY, primary key and foreign key", patches, guarded, guarded);
        say("COPY, primary key only", patches, plain, guarded);
    }

    private Times copy(Runs runs, List<UUID> ids, String constraints) throws Exception {
        Database.execute(database, "drop table if exists scratch_reading");
        Database.execute(
                database,
                "create table scratch_reading (run_id uuid not null, red integer not null check (red between 0 and 65535),"
                        + " green integer not null check (green between 0 and 65535),"
                        + " blue integer not null check (blue between 0 and 65535), seq integer not null,"
                        + " x float8 not null check (x >= 0 and x < 'infinity'),"
                        + " y float8 not null check (y >= 0 and y < 'infinity'),"
                        + " z float8 not null check (z >= 0 and z < 'infinity'), " + constraints + ")");
        var rows = ids.stream().map(runs::rows).toList();
        var copy = database.unwrap(PGConnection.class).getCopyAPI();
        var times = Times.of(
                UNCOUNTED,
                COUNTED,
                round -> copy.copyIn("copy scratch_reading from stdin", new ByteArrayInputStream(rows.get(round))));
        Database.execute(database, "drop table scratch_reading");
        return times;
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
