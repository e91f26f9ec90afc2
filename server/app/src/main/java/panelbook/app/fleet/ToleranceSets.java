package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.app.rest.Words;
import panelbook.wire.Basis;
import panelbook.wire.Metric;
import panelbook.wire.Page;
import panelbook.wire.Retirement;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;

/** All tolerance sets. Each edit is a revision of its own that stays: findings name the one they were judged by. */
@Component
class ToleranceSets {

    private static final String SELECT = """
            select s.id, s.name, s.retired_at, s.version, v.description, v.warm_up_minutes, v.recalibration_days,
                   v.recalibration_panel_hours, v.hysteresis, v.conformance_probability
            from tolerance_set s join tolerance_set_revision v
            on v.tolerance_set_id = s.id and v.revision = s.version""";
    private static final Query.Key<ToleranceSet> KEY = new Query.Key<>(ToleranceSet::name, ToleranceSet::id);

    private final JdbcClient jdbc;
    private final Clock clock;

    ToleranceSets(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Transactional
    Added<ToleranceSet> add(ToleranceSetDraft draft) {
        ToleranceSetChecks.of(new Checks(), "", draft).refuse();
        if (exists(draft.id())) {
            var there = get(draft.id());
            Repeats.mustBeSame(draft(there).equals(sorted(draft)), "tolerance set", draft.id());
            return new Added<>(there, false);
        }
        jdbc.sql("insert into tolerance_set (id, name, version) values (?, ?, 0)")
                .param(draft.id())
                .param(draft.name())
                .update();
        insertRevision(draft, 0);
        return new Added<>(get(draft.id()), true);
    }

    @Transactional
    ToleranceSet edit(UUID id, ToleranceSetDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        ToleranceSetChecks.of(new Checks(), "", draft).refuse();
        var there = get(id);
        mustBeInUse(id);
        Etags.match(expectedVersion, there.version());
        if (draft(there).equals(sorted(draft))) {
            return there;
        }
        advance(id, draft.name(), expectedVersion);
        insertRevision(draft, expectedVersion + 1);
        return get(id);
    }

    @Transactional
    ToleranceSet retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        var there = get(id);
        if (there.retiredAt() != null) {
            return there;
        }
        InUse.refuse(
                jdbc, "Targets are still judged by it: %s. Edit them to another set, or retire them first.", """
                select t.name from target t join target_revision v on v.target_id = t.id and v.revision = t.version
                where v.tolerance_set_id = ? and t.retired_at is null order by 1""", id);
        // the revision goes along, so that the version always names one
        advance(id, there.name(), there.version());
        insertRevision(draft(there), there.version() + 1);
        jdbc.sql("update tolerance_set set retired_at = ?, retirement_reason = ? where id = ?")
                .param(Rows.at(clock.instant()))
                .param(retirement.reason())
                .param(id)
                .update();
        return get(id);
    }

    @Transactional(readOnly = true)
    ToleranceSet get(UUID id) {
        return new Query(SELECT)
                .where("s.id = :id", "id", id)
                .one(jdbc, ToleranceSets::withoutTolerances)
                .map(set -> complete(List.of(set)).get(0))
                .orElseThrow(() -> Refusal.notFound("tolerance set", id));
    }

    @Transactional(readOnly = true)
    Page<ToleranceSet> page(@Nullable String name, boolean retired, Paging paging) {
        var page = new Query(SELECT)
                .where("s.name = :name", "name", name)
                .retired(retired, "s.retired_at")
                .page(jdbc, ToleranceSets::withoutTolerances, paging, "s.name", "s.id", KEY);
        return new Page<>(complete(page.items()), page.next());
    }

    /** All tolerance sets, retired ones too, by name. */
    List<ToleranceSet> all() {
        return complete(new Query(SELECT).list(jdbc, ToleranceSets::withoutTolerances, "s.name"));
    }

    /** All tolerance sets in use, by name. */
    List<ToleranceSet> inUse() {
        return complete(new Query(SELECT)
                .retired(false, "s.retired_at")
                .list(jdbc, ToleranceSets::withoutTolerances, "s.name"));
    }

    boolean exists(UUID id) {
        return jdbc.sql("select exists (select from tolerance_set where id = ?)")
                .param(id)
                .query(Boolean.class)
                .single();
    }

    void mustBeInUse(UUID id) {
        var set = get(id);
        if (set.retiredAt() != null) {
            throw Refusal.conflict("The tolerance set \"" + set.name() + "\" is retired: its record stays as it is.");
        }
    }

    static ToleranceSetDraft draft(ToleranceSet set) {
        return new ToleranceSetDraft(
                set.id(),
                set.name(),
                set.description(),
                set.warmUpMinutes(),
                set.recalibrationDays(),
                set.recalibrationPanelHours(),
                set.hysteresis(),
                set.conformanceProbability(),
                set.tolerances());
    }

    /** The same draft with its tolerances in the order of the metrics: their order says nothing. */
    static ToleranceSetDraft sorted(ToleranceSetDraft draft) {
        return new ToleranceSetDraft(
                draft.id(),
                draft.name(),
                draft.description(),
                draft.warmUpMinutes(),
                draft.recalibrationDays(),
                draft.recalibrationPanelHours(),
                draft.hysteresis(),
                draft.conformanceProbability(),
                sorted(draft.tolerances()));
    }

    private static List<Tolerance> sorted(List<Tolerance> tolerances) {
        return tolerances.stream()
                .sorted(Comparator.comparing(Tolerance::metric))
                .toList();
    }

    private void advance(UUID id, String name, long expectedVersion) {
        var advanced = jdbc.sql("update tolerance_set set name = ?, version = version + 1 where id = ? and version = ?")
                .param(name)
                .param(id)
                .param(expectedVersion)
                .update();
        if (advanced == 0) {
            throw Etags.stale();
        }
    }

    private void insertRevision(ToleranceSetDraft draft, long revision) {
        jdbc.sql("""
                        insert into tolerance_set_revision (tolerance_set_id, revision, description, warm_up_minutes,
                                                            recalibration_days, recalibration_panel_hours, hysteresis,
                                                            conformance_probability, recorded_at, recorded_by)
                        values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)""")
                .param(draft.id())
                .param(revision)
                .param(draft.description())
                .param(draft.warmUpMinutes())
                .param(draft.recalibrationDays())
                .param(draft.recalibrationPanelHours())
                .param(draft.hysteresis())
                .param(draft.conformanceProbability())
                .param(Rows.at(clock.instant()))
                .param(Caller.current().holder())
                .update();
        draft.tolerances().forEach(tolerance -> insertTolerance(draft.id(), revision, tolerance));
    }

    private void insertTolerance(UUID id, long revision, Tolerance tolerance) {
        jdbc.sql("""
                        insert into tolerance (tolerance_set_id, revision, metric, limit_value, basis, document, clause,
                                               note)
                        values (?, ?, ?, ?, ?, ?, ?, ?)""")
                .param(id)
                .param(revision)
                .param(tolerance.metric().toString())
                .param(tolerance.limit())
                .param(tolerance.basis().toString())
                .param(tolerance.document())
                .param(tolerance.clause())
                .param(tolerance.note())
                .update();
    }

    private List<ToleranceSet> complete(List<ToleranceSet> sets) {
        var tolerances = tolerances(sets);
        return sets.stream().map(set -> with(set, tolerances)).toList();
    }

    private Map<UUID, List<Tolerance>> tolerances(List<ToleranceSet> sets) {
        if (sets.isEmpty()) {
            return Map.of();
        }
        var found = new HashMap<UUID, List<Tolerance>>();
        jdbc.sql("""
                        select t.tolerance_set_id, t.metric, t.limit_value, t.basis, t.document, t.clause, t.note
                        from tolerance t join tolerance_set s on s.id = t.tolerance_set_id and s.version = t.revision
                        where s.id in (:ids)""").param("ids", sets.stream().map(ToleranceSet::id).toList()).query(rs -> {
            found.computeIfAbsent(rs.getObject("tolerance_set_id", UUID.class), id -> new ArrayList<>())
                    .add(tolerance(rs));
        });
        return found;
    }

    private static ToleranceSet with(ToleranceSet set, Map<UUID, List<Tolerance>> tolerances) {
        return new ToleranceSet(
                set.id(),
                set.name(),
                set.description(),
                set.warmUpMinutes(),
                set.recalibrationDays(),
                set.recalibrationPanelHours(),
                set.hysteresis(),
                set.conformanceProbability(),
                sorted(tolerances.getOrDefault(set.id(), List.of())),
                set.retiredAt(),
                set.version());
    }

    private static Tolerance tolerance(ResultSet rs) throws SQLException {
        return new Tolerance(
                Words.of(Metric.class, rs.getString("metric")),
                rs.getDouble("limit_value"),
                Words.of(Basis.class, rs.getString("basis")),
                rs.getString("document"),
                rs.getString("clause"),
                rs.getString("note"));
    }

    private static ToleranceSet withoutTolerances(ResultSet rs, int n) throws SQLException {
        return new ToleranceSet(
                rs.getObject("id", UUID.class),
                rs.getString("name"),
                rs.getString("description"),
                rs.getInt("warm_up_minutes"),
                rs.getObject("recalibration_days", Integer.class),
                rs.getObject("recalibration_panel_hours", Integer.class),
                rs.getDouble("hysteresis"),
                rs.getDouble("conformance_probability"),
                List.of(),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }
}
