package panelbook.app.planning.crew;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
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
import panelbook.wire.Calibrator;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;
import panelbook.wire.WorkingHours;
import tools.jackson.databind.json.JsonMapper;

/** All calibrators. */
@Component
public class Calibrators {

    private static final String SELECT = """
            select c.id, c.name, c.home_facility_id, f.name as facility, f.time_zone, c.skills::text as skills,
                   c.week::text as week, c.retired_at, c.version
            from calibrator c join facility f on f.id = c.home_facility_id""";
    private static final Query.Key<Calibrator> KEY = new Query.Key<>(Calibrator::name, Calibrator::id);
    private static final int MOST_SKILLS = 50;

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final Clock clock;

    Calibrators(JdbcClient jdbc, JsonMapper json, Clock clock) {
        this.jdbc = jdbc;
        this.json = json;
        this.clock = clock;
    }

    /** Adds a draft; the same draft again is harmless. */
    @Transactional
    Added<Calibrator> add(CalibratorDraft draft) {
        check(draft);
        var isNew = jdbc.sql("""
                        insert into calibrator (id, name, home_facility_id, skills, week)
                        values (:id, :name, :home, :skills::jsonb, :week::jsonb) on conflict (id) do nothing""").params(values(draft)).update() > 0;
        var there = get(draft.id());
        Repeats.mustBeSame(draft.equals(draftOf(there)), "calibrator", draft.id());
        return new Added<>(there, isNew);
    }

    /** Edits the version that was read. */
    @Transactional
    Calibrator edit(UUID id, CalibratorDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        var there = get(id);
        if (there.retiredAt() != null) {
            throw Refusal.conflict("The calibrator \"" + there.name() + "\" is retired: the record stays as it is.");
        }
        var edited = jdbc.sql("""
                        update calibrator set name = :name, home_facility_id = :home, skills = :skills::jsonb,
                               week = :week::jsonb, version = version + 1
                        where id = :id and version = :version and retired_at is null""")
                .params(values(draft))
                .param("version", expectedVersion)
                .update();
        if (edited == 0) {
            throw Etags.stale();
        }
        return get(id);
    }

    /** Takes a calibrator out of use, with the visits that were only proposed. */
    @Transactional
    Calibrator retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        if (get(id).retiredAt() != null) {
            return get(id);
        }
        jdbc.sql("select id from calibrator where id = :id for update")
                .param("id", id)
                .query(UUID.class)
                .single();
        var ahead = jdbc.sql("""
                        select r.name from visit v join room r on r.id = v.room_id
                        where v.calibrator_id = :id and v.state = 'confirmed' and v.ends_at > :now order by v.starts_at
                        """)
                .param("id", id)
                .param("now", Rows.at(clock.instant()))
                .query(String.class)
                .list();
        if (!ahead.isEmpty()) {
            throw Refusal.conflict("Confirmed visits lie ahead, the first to " + ahead.get(0)
                    + ": move them to another calibrator or drop them first.");
        }
        dropProposed(id);
        jdbc.sql("""
                        update calibrator set retired_at = :now, retirement_reason = :reason, version = version + 1
                        where id = :id and retired_at is null""")
                .param("id", id)
                .param("now", Rows.at(clock.instant()))
                .param("reason", retirement.reason())
                .update();
        return get(id);
    }

    private void dropProposed(UUID id) {
        jdbc.sql("""
                        update visit set state = 'dropped', reason = 'its calibrator was retired', changed_at = :now,
                               changed_by = :by, version = version + 1
                        where calibrator_id = :id and state = 'proposed'""")
                .param("id", id)
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .update();
    }

    /**
     * A calibrator, retired or not.
     *
     * @throws Refusal when there is no such calibrator
     */
    @Transactional(readOnly = true)
    public Calibrator get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("calibrator", id));
    }

    /** A calibrator, retired or not; empty when there is none. */
    public Optional<Calibrator> find(UUID id) {
        return new Query(SELECT).where("c.id = :id", "id", id).one(jdbc, this::calibrator);
    }

    /** All calibrators, retired ones too, by name. */
    public List<Calibrator> all() {
        return new Query(SELECT).list(jdbc, this::calibrator, "c.name");
    }

    @Transactional(readOnly = true)
    Page<Calibrator> page(@Nullable UUID facility, @Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("c.home_facility_id = :facility", "facility", facility)
                .where("c.name = :name", "name", name)
                .retired(retired, "c.retired_at")
                .page(jdbc, this::calibrator, paging, "c.name", "c.id", KEY);
    }

    private void check(CalibratorDraft draft) {
        var checks = new Checks().name("/name", draft.name());
        checks.that(
                isFacility(draft.homeFacilityId()),
                "/homeFacilityId",
                "There is no facility " + draft.homeFacilityId() + " in use.");
        checks.that(draft.skills().size() <= MOST_SKILLS, "/skills", "Must not hold more than " + MOST_SKILLS + ".");
        for (var i = 0; i < draft.skills().size(); i++) {
            checks.line("/skills/" + i, draft.skills().get(i), 100);
        }
        checks.that(
                draft.skills().stream()
                                .map(skill -> skill.toLowerCase(Locale.ROOT))
                                .distinct()
                                .count()
                        == draft.skills().size(),
                "/skills",
                "Must not hold a panel technology twice.");
        WeekChecks.check(checks, draft.week());
        checks.refuse();
    }

    private boolean isFacility(UUID id) {
        return jdbc.sql("select exists (select from facility where id = :id and retired_at is null)")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }

    private Map<String, Object> values(CalibratorDraft draft) {
        return Map.of(
                "id", draft.id(),
                "name", draft.name(),
                "home", draft.homeFacilityId(),
                "skills", json.writeValueAsString(draft.skills()),
                "week", json.writeValueAsString(draft.week()));
    }

    private static CalibratorDraft draftOf(Calibrator there) {
        return new CalibratorDraft(there.id(), there.name(), there.homeFacilityId(), there.skills(), there.week());
    }

    private Calibrator calibrator(ResultSet row, int n) throws SQLException {
        return new Calibrator(
                Rows.id(row, "id"),
                row.getString("name"),
                Rows.id(row, "home_facility_id"),
                row.getString("facility"),
                row.getString("time_zone"),
                List.of(json.readValue(row.getString("skills"), String[].class)),
                List.of(json.readValue(row.getString("week"), WorkingHours[].class)),
                Rows.instantOrNull(row, "retired_at"),
                row.getLong("version"));
    }
}
