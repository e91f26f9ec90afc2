package panelbook.app.runs;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

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

    /**
     * The run that shows how each of the presets stands: the one taken last. Runs taken while matching show a state that
     * was tried; they count once a sign-off closed with them. Presets without such a run are left out.
     */
    public List<StoredRun> latestOf(Collection<UUID> presetIds) {
        return jdbc.sql("""
                        select r.* from unnest(:presets) as p (id)
                        cross join lateral (
                            select * from run
                            where preset_id = p.id
                              and (purpose <> 'match'
                                   or exists (select 1 from match where follower_run_id = run.id)
                                   or exists (select 1 from match where hero_run_id = run.id))
                            order by taken_at desc, received_at desc limit 1) r
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .query((row, n) -> RunRows.stored(row))
                .list();
    }
}
