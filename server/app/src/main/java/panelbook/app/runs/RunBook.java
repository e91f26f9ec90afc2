package panelbook.app.runs;

import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.Run;

/** Finds runs again. */
@Component
public class RunBook {

    private static final String SHOWS_HOW_IT_STANDS = """
            (purpose <> 'match' and warmed_up is not false
             or exists (select 1 from counted_match where follower_run_id = run.id)
             or exists (select 1 from counted_match where hero_run_id = run.id))
            """;

    // a baseline or a later sign-off leaves a preset in a state; sign-offs for several operators in several
    private static final String SINCE_LEFT = """
            with left_at as (
                select p.id, p.white, coalesce(max(m.at), lower(b.during)) as since
                from unnest(:presets::uuid[], :codes::int[]) as p (id, white)
                left join counted_baseline b on b.preset_id = p.id and upper_inf(b.during)
                left join lateral (
                    select cm.operator, coalesce(c.taken_at, cm.signed_at) as at
                    from counted_match cm left join counted_run c on c.id = cm.follower_run_id
                    where cm.follower_preset_id = p.id
                      and (b.id is null or coalesce(c.taken_at, cm.signed_at) >= lower(b.during))) m on true
                group by p.id, p.white, lower(b.during)
                having count(distinct m.operator) <= 1)
            select run.*, w.red, w.green, w.blue, w.x, w.y, w.z
            from left_at p
            join counted_run run on run.preset_id = p.id and run.taken_at >= p.since
            join reading w on w.run_id = run.id and w.red = p.white and w.green = p.white and w.blue = p.white
            where %s
            order by run.preset_id, run.taken_at, run.received_at
            """.formatted(SHOWS_HOW_IT_STANDS);

    private final JdbcClient jdbc;

    RunBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The run, or empty. */
    public Optional<StoredRun> find(UUID runId) {
        return findAll(List.of(runId)).stream().findFirst();
    }

    /** The run, or empty when there is none or it was withdrawn. */
    public Optional<StoredRun> counted(UUID runId) {
        return find(runId).filter(run -> !isWithdrawn(runId));
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
                        select instrument_id, max(taken_at) as used from counted_run
                        where preset_id = any (:presets) and taken_at >= :since group by instrument_id
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .param("since", Rows.at(since))
                .query(row -> {
                    used.put(Rows.id(row, "instrument_id"), Rows.instant(row, "used"));
                });
        return used;
    }

    /** The alerts on some presets that were closed when one of the runs was judged first. */
    public List<UUID> alertsClosedBy(Collection<UUID> runIds, Collection<UUID> presetIds) {
        return jdbc.sql("""
                        select (notice ->> 'alertId')::uuid from run_answer
                        cross join lateral jsonb_array_elements(answer -> 'alerts') as notice
                        where run_id = any (:runs) and notice ->> 'event' = 'closed'
                          and exists (select 1 from alert a where a.id = (notice ->> 'alertId')::uuid
                                                              and a.subject_id = any (:presets))
                        """)
                .param("runs", runIds.toArray(new UUID[0]))
                .param("presets", presetIds.toArray(new UUID[0]))
                .query(UUID.class)
                .list();
    }

    /** Whether a run was withdrawn. */
    public boolean isWithdrawn(UUID runId) {
        return jdbc.sql("select exists (select 1 from run_withdrawal where run_id = :run)")
                .param("run", runId)
                .query(Boolean.class)
                .single();
    }

    /** The run that was taken last with an instrument. */
    public Optional<StoredRun> lastOfInstrument(UUID instrumentId) {
        return jdbc.sql("""
                        select * from counted_run where instrument_id = :instrument
                        order by taken_at desc, received_at desc limit 1
                        """)
                .param("instrument", instrumentId)
                .query((row, n) -> RunRows.stored(row))
                .optional();
    }

    /** Whether no later run was taken with the same instrument. */
    public boolean isLastOfItsInstrument(StoredRun run) {
        return jdbc.sql("""
                        select id = :run from counted_run where instrument_id = :instrument
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
        return latest(presetIds, null);
    }

    /** The runs that showed how each of the presets stood at a time, as {@link #latestOf(Collection)}. */
    public List<StoredRun> latestOf(Collection<UUID> presetIds, Instant at) {
        return latest(presetIds, at);
    }

    private List<StoredRun> latest(Collection<UUID> presetIds, @Nullable Instant at) {
        return jdbc.sql("""
                        select r.* from unnest(:presets) as p (id)
                        cross join lateral (
                            select * from counted_run run
                            where preset_id = p.id and %s
                            %s
                            order by taken_at desc, received_at desc limit 1) r
                        """.formatted(SHOWS_HOW_IT_STANDS, at == null ? "" : "and taken_at <= :at"))
                .param("presets", presetIds.toArray(new UUID[0]))
                .param("at", Rows.atOrNull(at))
                .query((row, n) -> RunRows.stored(row))
                .list();
    }

    /** The runs that showed how a preset stood, one after the other, from a time on. */
    public List<StoredRun> standingSince(UUID presetId, Instant fromInclusive) {
        return jdbc.sql("""
                        select * from counted_run run where preset_id = :preset and taken_at >= :from and %s
                        order by taken_at, received_at
                        """.formatted(SHOWS_HOW_IT_STANDS))
                .param("preset", presetId)
                .param("from", Rows.at(fromInclusive))
                .query((row, n) -> RunRows.stored(row))
                .list();
    }

    /**
     * A run with its reading of white, as it was taken.
     *
     * @param white at the white code value of the preset's target
     */
    record WhiteTaken(StoredRun run, Reading white) {}

    /**
     * The runs that showed how each of the presets stood, cut down to white, one after the other; in one statement, and
     * without a look at their other readings. Runs without a reading of white are left out.
     *
     * @param whites code value of white by preset
     * @param since from when on runs are asked for, by preset; a preset that is not in it is asked for all
     */
    List<WhiteTaken> standingWhites(Map<UUID, Integer> whites, Map<UUID, Instant> since) {
        var presets = whites.keySet().toArray(new UUID[0]);
        var codes = Arrays.stream(presets).map(whites::get).toArray(Integer[]::new);
        var from = Arrays.stream(presets)
                .map(preset -> since.getOrDefault(preset, Instant.EPOCH).toString())
                .toArray(String[]::new);
        return jdbc.sql("""
                        select run.*, w.red, w.green, w.blue, w.x, w.y, w.z
                        from unnest(:presets::uuid[], :codes::int[], :since::timestamptz[]) as p (id, white, since)
                        join counted_run run on run.preset_id = p.id and run.taken_at >= p.since
                        join reading w on w.run_id = run.id and w.red = p.white and w.green = p.white and w.blue = p.white
                        where %s
                        order by run.preset_id, run.taken_at, run.received_at
                        """.formatted(SHOWS_HOW_IT_STANDS))
                .param("presets", presets)
                .param("codes", codes)
                .param("since", from)
                .query((row, n) -> new WhiteTaken(RunRows.stored(row), ReadingBook.reading(row)))
                .list();
    }

    private List<WhiteTaken> whites(String sql, Map<UUID, Integer> whites) {
        var presets = whites.keySet().toArray(new UUID[0]);
        var codes = Arrays.stream(presets).map(whites::get).toArray(Integer[]::new);
        return jdbc.sql(sql)
                .param("presets", presets)
                .param("codes", codes)
                .query((row, n) -> new WhiteTaken(RunRows.stored(row), ReadingBook.reading(row)))
                .list();
    }

    /**
     * As {@link #standingWhites}, since the state that each preset was left in: its baseline, or the match signed off on it
     * since. Presets without one, and those matched for several operators, are left out.
     */
    List<WhiteTaken> whitesSinceLeft(Map<UUID, Integer> whites) {
        return whites(SINCE_LEFT, whites);
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
                        select r.* from counted_run r
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
