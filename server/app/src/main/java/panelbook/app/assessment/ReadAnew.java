package panelbook.app.assessment;

import java.time.Instant;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;

/** What follows when the runs of a meter are read otherwise than before, since a correction was made or withdrawn. */
@Component
public class ReadAnew {

    /**
     * Which runs are read otherwise.
     *
     * @param displayId on that display; null for all of the model
     * @param model of the displays; null when a display is named
     * @param from taken from then on; null for all
     */
    public record Scope(
            UUID instrumentId,
            @Nullable UUID displayId,
            @Nullable String model,
            @Nullable Instant from) {}

    private static final String IN_SCOPE = """
            select p.id from preset p join display d on d.id = p.display_id
            where p.retired_at is null and d.retired_at is null
              and (d.id = :display or d.model = :model)
            order by p.id
            """;

    // runs that a judgement of the preset may go back to, beside the latest one
    private static final String GONE_BACK_TO = """
            select r.preset_id from counted_run r
            where r.preset_id = any (:presets) and r.instrument_id = :instrument
              and (:from::timestamptz is null or r.taken_at >= :from)
              and (exists (select 1 from counted_baseline where run_id = r.id and upper_inf(during))
                   or exists (select 1 from counted_match where follower_run_id = r.id)
                   or exists (select 1 from counted_match where hero_run_id = r.id)
                   or exists (select 1 from standing_finding sf join finding f on f.id = sf.finding_id
                              where sf.preset_id = r.preset_id and f.run_id = r.id)
                   or exists (select 1 from standing_finding sf
                              where sf.preset_id = r.preset_id and sf.slot in ('step-luminance', 'step-white')))
            """;

    private final JdbcClient jdbc;
    private final Assessor assessor;
    private final Verdicts verdicts;
    private final PresetFactsBook presets;
    private final RunBook runs;

    ReadAnew(JdbcClient jdbc, Assessor assessor, Verdicts verdicts, PresetFactsBook presets, RunBook runs) {
        this.jdbc = jdbc;
        this.assessor = assessor;
        this.verdicts = verdicts;
        this.presets = presets;
        this.runs = runs;
    }

    /**
     * The presets whose judgement rests on runs in the scope: the latest one, the baseline, or a sign-off. Locks the rooms
     * of all that may, so that no run comes between until the transaction ends.
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<UUID> restingOn(Scope scope) {
        var inScope = jdbc.sql(IN_SCOPE)
                .param("display", scope.displayId())
                .param("model", scope.model())
                .query(UUID.class)
                .list();
        assessor.lockRoomsOf(presets.findAll(inScope).values());
        var resting = new HashSet<>(jdbc.sql(GONE_BACK_TO)
                .param("presets", inScope.toArray(new UUID[0]))
                .param("instrument", scope.instrumentId())
                .param("from", Rows.atOrNull(scope.from()))
                .query(UUID.class)
                .list());
        runs.latestOf(inScope).stream()
                .filter(run -> run.instrumentId().equals(scope.instrumentId()))
                .filter(run -> scope.from() == null || !run.takenAt().isBefore(scope.from()))
                .forEach(run -> resting.add(run.presetId()));
        return inScope.stream().filter(resting::contains).toList();
    }

    /** Judges presets anew, by their runs as they are read now. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void judge(Collection<UUID> presetIds) {
        verdicts.judgeLatestOf(presetIds);
    }
}
