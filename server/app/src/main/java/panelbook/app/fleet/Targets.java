package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
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
import panelbook.wire.EotfKind;
import panelbook.wire.Page;
import panelbook.wire.Primaries;
import panelbook.wire.Retirement;
import panelbook.wire.SignalRange;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;

/** All targets. Each edit is a revision of its own that stays: what was judged by it keeps its meaning. */
@Component
class Targets {

    private static final String SELECT = """
            select t.id, t.name, t.retired_at, t.version, v.red_x, v.red_y, v.green_x, v.green_y, v.blue_x, v.blue_y,
                   v.white_x, v.white_y, v.eotf, v.gamma, v.signal_range, v.bit_depth, v.peak_luminance,
                   v.black_luminance, v.tolerance_set_id, s.name as tolerance_set
            from target t join target_revision v on v.target_id = t.id and v.revision = t.version
            join tolerance_set s on s.id = v.tolerance_set_id""";
    private static final Query.Key<Target> KEY = new Query.Key<>(Target::name, Target::id);

    private final JdbcClient jdbc;
    private final ToleranceSets toleranceSets;
    private final Clock clock;

    Targets(JdbcClient jdbc, ToleranceSets toleranceSets, Clock clock) {
        this.jdbc = jdbc;
        this.toleranceSets = toleranceSets;
        this.clock = clock;
    }

    @Transactional
    Added<Target> add(TargetDraft draft) {
        check(draft);
        if (exists(draft.id())) {
            var there = get(draft.id());
            Repeats.mustBeSame(draft(there).equals(draft), "target", draft.id());
            return new Added<>(there, false);
        }
        toleranceSets.mustBeInUse(draft.toleranceSetId());
        jdbc.sql("insert into target (id, name, version) values (?, ?, 0)")
                .param(draft.id())
                .param(draft.name())
                .update();
        insertRevision(draft, 0);
        return new Added<>(get(draft.id()), true);
    }

    @Transactional
    Target edit(UUID id, TargetDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        var there = get(id);
        mustBeInUse(id);
        Etags.match(expectedVersion, there.version());
        if (draft(there).equals(draft)) {
            return there;
        }
        if (!there.toleranceSetId().equals(draft.toleranceSetId())) {
            toleranceSets.mustBeInUse(draft.toleranceSetId());
        }
        advance(id, draft.name(), expectedVersion);
        refuseOtherCodesOnceMeasured(there, draft);
        insertRevision(draft, expectedVersion + 1);
        return get(id);
    }

    /** The readings of a run are kept with their code values: in another range or depth these would be other colours. */
    private void refuseOtherCodesOnceMeasured(Target there, TargetDraft draft) {
        if (there.signalRange() == draft.signalRange() && there.bitDepth() == draft.bitDepth()) {
            return;
        }
        var measured = jdbc.sql(
                        "select exists (select from run r join preset p on p.id = r.preset_id where p.target_id = ?)")
                .param(there.id())
                .query(Boolean.class)
                .single();
        if (measured) {
            throw Refusal.conflict("Runs have been measured for the target \"" + there.name() + "\" in "
                    + there.bitDepth() + " bit " + there.signalRange()
                    + " code values, which its signal range and bit depth give their meaning: leave both, or add a new"
                    + " target and new presets for it.");
        }
    }

    @Transactional
    Target retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        var there = get(id);
        if (there.retiredAt() != null) {
            return there;
        }
        InUse.refuse(jdbc, "Presets still aim at it: %s. Retire them first.", """
                select d.name || '/' || p.name from preset p join display d on d.id = p.display_id
                where p.target_id = ? and p.retired_at is null order by 1""", id);
        // the revision goes along, so that the version always names one
        advance(id, there.name(), there.version());
        insertRevision(draft(there), there.version() + 1);
        jdbc.sql("update target set retired_at = ?, retirement_reason = ? where id = ?")
                .param(Rows.at(clock.instant()))
                .param(retirement.reason())
                .param(id)
                .update();
        return get(id);
    }

    @Transactional(readOnly = true)
    Target get(UUID id) {
        return new Query(SELECT)
                .where("t.id = :id", "id", id)
                .one(jdbc, Targets::target)
                .orElseThrow(() -> Refusal.notFound("target", id));
    }

    @Transactional(readOnly = true)
    Page<Target> page(@Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("t.name = :name", "name", name)
                .retired(retired, "t.retired_at")
                .page(jdbc, Targets::target, paging, "t.name", "t.id", KEY);
    }

    /** All targets, retired ones too, by name. */
    List<Target> all() {
        return new Query(SELECT).list(jdbc, Targets::target, "t.name");
    }

    /** All targets in use, by name. */
    List<Target> inUse() {
        return new Query(SELECT).retired(false, "t.retired_at").list(jdbc, Targets::target, "t.name");
    }

    boolean exists(UUID id) {
        return jdbc.sql("select exists (select from target where id = ?)")
                .param(id)
                .query(Boolean.class)
                .single();
    }

    void mustBeInUse(UUID id) {
        var target = get(id);
        if (target.retiredAt() != null) {
            throw Refusal.conflict("The target \"" + target.name() + "\" is retired: its record stays as it is.");
        }
    }

    static TargetDraft draft(Target target) {
        return new TargetDraft(
                target.id(),
                target.name(),
                target.primaries(),
                target.eotf(),
                target.gamma(),
                target.signalRange(),
                target.bitDepth(),
                target.peakLuminance(),
                target.blackLuminance(),
                target.toleranceSetId());
    }

    private void check(TargetDraft draft) {
        var checks = TargetChecks.of(new Checks(), "", draft);
        checks.that(
                toleranceSets.exists(draft.toleranceSetId()),
                "/toleranceSetId",
                "There is no tolerance set " + draft.toleranceSetId() + ".");
        checks.refuse();
    }

    private void advance(UUID id, String name, long expectedVersion) {
        var advanced = jdbc.sql("update target set name = ?, version = version + 1 where id = ? and version = ?")
                .param(name)
                .param(id)
                .param(expectedVersion)
                .update();
        if (advanced == 0) {
            throw Etags.stale();
        }
    }

    private void insertRevision(TargetDraft draft, long revision) {
        var gamut = draft.primaries();
        jdbc.sql("""
                        insert into target_revision (target_id, revision, red_x, red_y, green_x, green_y, blue_x, blue_y,
                                                     white_x, white_y, eotf, gamma, signal_range, bit_depth,
                                                     peak_luminance, black_luminance, tolerance_set_id, recorded_at,
                                                     recorded_by)
                        values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)""")
                .param(draft.id())
                .param(revision)
                .param(gamut.redX())
                .param(gamut.redY())
                .param(gamut.greenX())
                .param(gamut.greenY())
                .param(gamut.blueX())
                .param(gamut.blueY())
                .param(gamut.whiteX())
                .param(gamut.whiteY())
                .param(draft.eotf().toString())
                .param(draft.gamma())
                .param(draft.signalRange().toString())
                .param(draft.bitDepth())
                .param(draft.peakLuminance())
                .param(draft.blackLuminance())
                .param(draft.toleranceSetId())
                .param(Rows.at(clock.instant()))
                .param(Caller.current().holder())
                .update();
    }

    private static Target target(ResultSet rs, int n) throws SQLException {
        return new Target(
                rs.getObject("id", UUID.class),
                rs.getString("name"),
                primaries(rs),
                Words.of(EotfKind.class, rs.getString("eotf")),
                rs.getObject("gamma", Double.class),
                Words.of(SignalRange.class, rs.getString("signal_range")),
                rs.getInt("bit_depth"),
                rs.getDouble("peak_luminance"),
                rs.getDouble("black_luminance"),
                rs.getObject("tolerance_set_id", UUID.class),
                rs.getString("tolerance_set"),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }

    private static Primaries primaries(ResultSet rs) throws SQLException {
        return new Primaries(
                rs.getDouble("red_x"),
                rs.getDouble("red_y"),
                rs.getDouble("green_x"),
                rs.getDouble("green_y"),
                rs.getDouble("blue_x"),
                rs.getDouble("blue_y"),
                rs.getDouble("white_x"),
                rs.getDouble("white_y"));
    }
}
