package panelbook.app.runs;

import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.wire.Run;

/** Finds runs again. */
@Component
public class RunBook {

    private final JdbcClient jdbc;

    RunBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The run, or empty. */
    public Optional<StoredRun> find(UUID runId) {
        return findAll(List.of(runId)).stream().findFirst();
    }

    /** The runs of those ids that there are. */
    public List<StoredRun> findAll(Collection<UUID> runIds) {
        return jdbc.sql("select * from run where id = any (:ids)")
                .param("ids", runIds.toArray(new UUID[0]))
                .query((row, n) -> RunRows.stored(row))
                .list();
    }

    /** The runs of those ids that there are, as the contract shows them, by id. */
    public Map<UUID, Run> shown(Collection<UUID> runIds) {
        return jdbc
                .sql(RunRows.SELECT + " where r.id = any (:ids)")
                .param("ids", runIds.toArray(new UUID[0]))
                .query((row, n) -> RunRows.wire(row))
                .stream()
                .collect(Collectors.toMap(Run::id, run -> run));
    }

    /** When each instrument was last used on one of the presets; those not used since then are left out. */
    public Map<UUID, Instant> instrumentsUsedOn(Collection<UUID> presetIds, Instant since) {
        var used = new HashMap<UUID, Instant>();
        jdbc.sql("""
                        select instrument_id, max(taken_at) as used from run
                        where preset_id = any (:presets) and taken_at >= :since group by instrument_id
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .param("since", Rows.at(since))
                .query(row -> {
                    used.put(Rows.id(row, "instrument_id"), Rows.instant(row, "used"));
                });
        return used;
    }

    /** Whether no later run was taken with the same instrument. */
    public boolean isLastOfItsInstrument(StoredRun run) {
        return jdbc.sql("""
                        select id = :run from run where instrument_id = :instrument
                        order by taken_at desc, received_at desc limit 1
                        """)
                .param("run", run.id())
                .param("instrument", run.instrumentId())
                .query(Boolean.class)
                .single();
    }

    /**
     * The run that shows how each of the presets stands: the one taken last. Runs taken while matching show a state that
     * was tried, and runs taken before warm-up show a cold panel: they count once a sign-off closed with them. Presets
     * without such a run are left out.
     */
    public List<StoredRun> latestOf(Collection<UUID> presetIds) {
        return jdbc.sql("""
                        select r.* from unnest(:presets) as p (id)
                        cross join lateral (
                            select * from run
                            where preset_id = p.id
                              and (purpose <> 'match' and warmed_up is not false
                                   or exists (select 1 from match where follower_run_id = run.id)
                                   or exists (select 1 from match where hero_run_id = run.id))
                            order by taken_at desc, received_at desc limit 1) r
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .query((row, n) -> RunRows.stored(row))
                .list();
    }

    /**
     * The run of a preset, taken last, that holds at least so many greys from black to white, leaving out those taken cold
     * and those taken while matching.
     *
     * @param black code value
     * @param white code value
     */
    public Optional<StoredRun> latestRampOf(UUID presetId, int black, int white, int leastLevels) {
        return jdbc.sql("""
                        select r.* from run r
                        where r.preset_id = :preset and r.purpose <> 'match' and r.warmed_up is not false
                          and (select count(*) from reading
                               where run_id = r.id and red = green and green = blue and red between :black and :white)
                              >= :levels
                        order by r.taken_at desc, r.received_at desc limit 1
                        """)
                .param("preset", presetId)
                .param("black", black)
                .param("white", white)
                .param("levels", leastLevels)
                .query((row, n) -> RunRows.stored(row))
                .optional();
    }
}
