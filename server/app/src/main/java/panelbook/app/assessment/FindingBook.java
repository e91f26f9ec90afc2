package panelbook.app.assessment;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.app.runs.PresetPath;
import panelbook.wire.Basis;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.ReadingRef;
import tools.jackson.databind.json.JsonMapper;

/** Findings: kept for ever, and which of them stands now for each preset. */
@Component
public class FindingBook {

    private static final String SELECT = """
            select fi.*, s.name as tolerance_set, t.basis, t.document, t.clause,
                   %s as path
            from finding fi
            %s
            join tolerance_set s on s.id = fi.tolerance_set_id
            left join tolerance t on t.tolerance_set_id = fi.tolerance_set_id
                                 and t.revision = fi.tolerance_set_revision and t.metric = fi.metric
            """.formatted(PresetPath.expression(""), PresetPath.joins("", "fi.preset_id"));

    private static final String INSERT = """
            insert into finding (id, preset_id, run_id, match_id, instrument_id, rule, metric, value, limit_value, uncertainty,
                                 conformance, decision, clear, explanation, readings, corrections, detail, tolerance_set_id,
                                 tolerance_set_revision, target_revision, assessed_at)
            values (:id, :preset, :run, :match, :instrument, :rule, :metric, :value, :limit, :uncertainty, :conformance,
                    :decision, :clear, :explanation, :readings::jsonb, :corrections, :detail::jsonb, :set, :revision, :target, :at)
            """;

    private static final String STAND = """
            insert into standing_finding (preset_id, slot, finding_id, decision) values (:preset, :slot, :id, :decision)
            on conflict (preset_id, slot) do update set finding_id = excluded.finding_id, decision = excluded.decision
            """;

    private final JdbcClient jdbc;
    private final NamedParameterJdbcTemplate batch;
    private final JsonMapper json;

    FindingBook(JdbcClient jdbc, JdbcTemplate template, JsonMapper json) {
        this.jdbc = jdbc;
        this.batch = new NamedParameterJdbcTemplate(template);
        this.json = json;
    }

    /** Keeps findings for ever. */
    void keep(List<Judged> judged, @Nullable UUID instrumentId) {
        batch.batchUpdate(INSERT, judged.stream().map(j -> row(j, instrumentId)).toArray(MapSqlParameterSource[]::new));
    }

    private MapSqlParameterSource row(Judged judged, @Nullable UUID instrumentId) {
        var f = judged.finding();
        return new MapSqlParameterSource()
                .addValue("id", f.id())
                .addValue("preset", f.presetId())
                .addValue("run", f.runId())
                .addValue("match", f.matchId())
                .addValue("instrument", instrumentId)
                .addValue("rule", f.rule().toString())
                .addValue("metric", f.metric().toString())
                .addValue("value", f.value())
                .addValue("limit", f.limit())
                .addValue("uncertainty", f.uncertainty())
                .addValue("conformance", f.conformance())
                .addValue("decision", f.decision().toString())
                .addValue("clear", judged.clear())
                .addValue("explanation", f.explanation())
                .addValue("readings", json.writeValueAsString(f.readings()))
                .addValue("corrections", f.corrections().toArray(new String[0]))
                .addValue("detail", judged.blame() == null ? null : json.writeValueAsString(judged.blame()))
                .addValue("set", f.toleranceSetId())
                .addValue("revision", f.toleranceSetVersion())
                .addValue("target", judged.targetRevision())
                .addValue("at", Rows.at(f.assessedAt()));
    }

    /** Makes findings the standing ones of their slots. */
    void stand(List<Judged> judged) {
        batch.batchUpdate(
                STAND,
                judged.stream()
                        .map(j -> new MapSqlParameterSource()
                                .addValue("preset", j.finding().presetId())
                                .addValue("slot", j.slot())
                                .addValue("id", j.finding().id())
                                .addValue("decision", j.finding().decision().toString()))
                        .toArray(MapSqlParameterSource[]::new));
    }

    /** Lets certain findings on presets stand no longer. */
    void stepDown(Collection<UUID> presetIds, Predicate<Finding> which) {
        var slots = new HashMap<UUID, Set<String>>();
        for (var judged : standing(presetIds)) {
            var kept = slots.computeIfAbsent(judged.finding().presetId(), id -> new HashSet<>());
            if (!which.test(judged.finding())) {
                kept.add(judged.slot());
            }
        }
        slots.forEach((preset, kept) -> stepDown(preset, kept));
    }

    /** Lets the findings on a preset stand no longer, but for those in the slots named. */
    void stepDown(UUID presetId, Collection<String> keptSlots) {
        jdbc.sql("delete from standing_finding where preset_id = :preset and not slot = any (:kept)")
                .param("preset", presetId)
                .param("kept", keptSlots.toArray(new String[0]))
                .update();
    }

    /** The standing findings of presets. */
    List<Judged> standing(Collection<UUID> presetIds) {
        // found first: as a ninth table in the join it would come after a look at every finding (join_collapse_limit)
        return jdbc.sql(SELECT + """
                        where fi.id = any (array(select finding_id from standing_finding where preset_id = any (:presets)))
                        order by fi.preset_id, fi.metric, fi.match_id, fi.id
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .query((row, n) -> judged(row))
                .list();
    }

    /**
     * A standing finding.
     *
     * @param setAside whether it is a residual to an agreement that is in question, or of an operator whose trims the
     *     display does not stand in
     */
    public record Standing(Finding finding, boolean setAside) {}

    /** The standing findings of presets, as others see them. */
    public List<Standing> standingOf(Collection<UUID> presetIds) {
        return standing(presetIds).stream()
                .map(judged -> new Standing(judged.finding(), !judged.counts()))
                .toList();
    }

    /** The findings that a run brought, on its own preset and on others, by the time of the first assessment. */
    public List<Finding> ofRun(UUID runId) {
        return jdbc.sql(SELECT + " where fi.run_id = :run order by fi.assessed_at, path, fi.rule, fi.metric, fi.id")
                .param("run", runId)
                .query((row, n) -> judged(row).finding())
                .list();
    }

    /**
     * What was found of metrics of a preset over time, oldest first: of each run and match what was said last. Runs that were
     * withdrawn are left out.
     */
    public List<Finding> historyOf(UUID presetId, Collection<Metric> metrics) {
        return jdbc.sql(SELECT + """
                        where fi.id in (select distinct on (f.metric, f.match_id, f.run_id) f.id
                                        from finding f join counted_run c on c.id = f.run_id
                                        where f.preset_id = :preset and f.metric = any (:metrics)
                                        order by f.metric, f.match_id, f.run_id, f.assessed_at desc, f.id)
                        order by fi.assessed_at, fi.id
                        """)
                .param("preset", presetId)
                .param("metrics", metrics.stream().map(Metric::toString).toArray(String[]::new))
                .query((row, n) -> judged(row).finding())
                .list();
    }

    private Judged judged(ResultSet row) throws SQLException {
        var detail = row.getString("detail");
        return new Judged(
                finding(row),
                row.getBoolean("clear"),
                row.getLong("target_revision"),
                detail == null ? null : json.readValue(detail, Blame.class));
    }

    private Finding finding(ResultSet row) throws SQLException {
        var metric = Words.of(Metric.class, row.getString("metric"));
        var basis = row.getString("basis");
        return new Finding(
                Rows.id(row, "id"),
                Rows.id(row, "preset_id"),
                row.getString("path"),
                Rows.idOrNull(row, "run_id"),
                Rows.idOrNull(row, "match_id"),
                metric.rule(),
                metric,
                row.getDouble("value"),
                row.getDouble("limit_value"),
                metric.unit(),
                Rows.doubleOrNull(row, "uncertainty"),
                Rows.doubleOrNull(row, "conformance"),
                Words.of(Decision.class, row.getString("decision")),
                row.getString("explanation"),
                List.of(json.readValue(row.getString("readings"), ReadingRef[].class)),
                List.of((String[]) row.getArray("corrections").getArray()),
                Rows.id(row, "tolerance_set_id"),
                row.getString("tolerance_set"),
                row.getLong("tolerance_set_revision"),
                basis == null ? Basis.HOUSE_POLICY : Words.of(Basis.class, basis),
                row.getString("document"),
                row.getString("clause"),
                Rows.instant(row, "assessed_at"));
    }
}
