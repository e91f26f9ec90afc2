package panelbook.app.assessment;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.runs.StoredRun;
import panelbook.app.runs.WithdrawalRows;
import panelbook.wire.Baseline;

/** Baselines of presets: one at a time, from when its run was taken until the next one's was. */
@Component
class Baselines {

    private static final String COLUMNS = """
            select id, preset_id, run_id, lower(during) as starts, upper(during) as ends, reason, declared_by,
                   withdrawn_at, withdrawn_by, withdrawn_because, null::uuid as replaced_by
            """;

    private static final String SELECT = COLUMNS + "from counted_baseline";

    private final JdbcClient jdbc;
    private final Clock clock;

    Baselines(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** The baseline that was in force on a preset at a time. */
    Optional<Baseline> at(UUID presetId, Instant at) {
        return jdbc.sql(SELECT + " where preset_id = :preset and during @> :at::timestamptz")
                .param("preset", presetId)
                .param("at", Rows.at(at))
                .query((row, n) -> baseline(row))
                .optional();
    }

    /** The baseline in force on a preset. */
    Optional<Baseline> inForce(UUID presetId) {
        return jdbc.sql(SELECT + " where preset_id = :preset and upper_inf(during)")
                .param("preset", presetId)
                .query((row, n) -> baseline(row))
                .optional();
    }

    /** All baselines of a preset, newest first; those withdrawn too, but of each run only what was said of it last. */
    List<Baseline> of(UUID presetId) {
        return jdbc.sql(COLUMNS + """
                        from (select distinct on (run_id) * from baseline where preset_id = :preset
                              order by run_id, withdrawn_at desc nulls first, declared_at desc) as b
                        order by lower(during) desc, declared_at desc
                        """)
                .param("preset", presetId)
                .query((row, n) -> baseline(row))
                .list();
    }

    /** Whether a run is or was a baseline. */
    boolean isBaseline(UUID runId) {
        return jdbc.sql("select exists (select 1 from counted_baseline where run_id = :run)")
                .param("run", runId)
                .query(Boolean.class)
                .single();
    }

    /**
     * Makes a run the baseline of its preset from the time it was taken. A run that comes late takes its place in the
     * order of time: it ends the baseline before it and lasts until the one after it.
     */
    void begin(StoredRun run, @Nullable String reason, String by) {
        var before = at(run.presetId(), run.takenAt());
        var ends = before.map(Baseline::to).orElseGet(() -> nextStart(run));
        before.ifPresent(baseline -> end(baseline, run.takenAt()));
        jdbc.sql("""
                        insert into baseline (id, preset_id, run_id, during, reason, declared_by, declared_at)
                        values (:id, :preset, :run, tstzrange(:from, :to), :reason, :by, :now)
                        """)
                .param("id", UUID.randomUUID())
                .param("preset", run.presetId())
                .param("run", run.id())
                .param("from", Rows.at(run.takenAt()))
                .param("to", Rows.atOrNull(ends), java.sql.Types.TIMESTAMP_WITH_TIMEZONE)
                .param("reason", reason)
                .param("by", by)
                .param("now", Rows.at(clock.instant()))
                .update();
    }

    /** Whether a baseline of the preset starts at exactly the time that the run was taken. */
    boolean startsAt(StoredRun run) {
        return at(run.presetId(), run.takenAt())
                .map(baseline -> baseline.from().equals(run.takenAt()))
                .orElse(false);
    }

    /** The baseline that a run is or was; empty when it is none that holds. */
    Optional<Baseline> ofRun(UUID runId) {
        return jdbc.sql(SELECT + " where run_id = :run")
                .param("run", runId)
                .query((row, n) -> baseline(row))
                .optional();
    }

    /**
     * Withdraws a baseline. The one that it ended lasts on in its stead, by a row that says when that was put right, so that
     * what the service said before can still be told.
     */
    void withdraw(Baseline baseline, String why, String by) {
        var before = jdbc.sql(SELECT + " where preset_id = :preset and upper(during) = :start")
                .param("preset", baseline.presetId())
                .param("start", Rows.at(baseline.from()))
                .query((row, n) -> baseline(row))
                .optional();
        markWithdrawn(baseline, why, by);
        before.ifPresent(earlier -> {
            markWithdrawn(
                    earlier, "It lasts longer than was thought, since the one after it was withdrawn: " + why, by);
            lastUntil(earlier, baseline.to());
        });
    }

    private void markWithdrawn(Baseline baseline, String why, String by) {
        jdbc.sql("""
                        update baseline set withdrawn_at = :now, withdrawn_by = :by, withdrawn_because = left(:why, 10000)
                        where id = :id
                        """)
                .param("now", Rows.at(clock.instant()))
                .param("by", by)
                .param("why", why)
                .param("id", baseline.id())
                .update();
    }

    private void lastUntil(Baseline baseline, @Nullable Instant ends) {
        jdbc.sql("""
                        insert into baseline (id, preset_id, run_id, during, reason, declared_by, declared_at)
                        select :newId, preset_id, run_id, tstzrange(lower(during), :to), reason, declared_by, :now
                        from baseline where id = :id
                        """)
                .param("newId", UUID.randomUUID())
                .param("to", Rows.atOrNull(ends), java.sql.Types.TIMESTAMP_WITH_TIMEZONE)
                .param("now", Rows.at(clock.instant()))
                .param("id", baseline.id())
                .update();
    }

    private @Nullable Instant nextStart(StoredRun run) {
        return jdbc.sql(
                        "select min(lower(during)) as starts from counted_baseline where preset_id = :preset and lower(during) > :at")
                .param("preset", run.presetId())
                .param("at", Rows.at(run.takenAt()))
                .query((row, n) -> Optional.ofNullable(Rows.instantOrNull(row, "starts")))
                .single()
                .orElse(null);
    }

    private void end(Baseline baseline, Instant at) {
        jdbc.sql("update baseline set during = tstzrange(lower(during), :at) where id = :id")
                .param("at", Rows.at(at))
                .param("id", baseline.id())
                .update();
    }

    private static Baseline baseline(ResultSet row) throws SQLException {
        return new Baseline(
                Rows.id(row, "id"),
                Rows.id(row, "preset_id"),
                Rows.id(row, "run_id"),
                Rows.instant(row, "starts"),
                Rows.instantOrNull(row, "ends"),
                row.getString("reason"),
                row.getString("declared_by"),
                WithdrawalRows.withdrawal(row));
    }
}
