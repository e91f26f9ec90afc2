package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Facility;
import panelbook.wire.FacilityDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** All facilities. */
@Component
class Facilities {

    private static final String SELECT = "select f.id, f.name, f.time_zone, f.retired_at, f.version from facility f";
    private static final Query.Key<Facility> KEY = new Query.Key<>(Facility::name, Facility::id);

    private final FacilityRows rows;
    private final JdbcClient jdbc;
    private final Clock clock;

    Facilities(FacilityRows rows, JdbcClient jdbc, Clock clock) {
        this.rows = rows;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Transactional
    Added<Facility> add(FacilityDraft draft) {
        check(draft);
        var there = rows.findById(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(there.get().draft().equals(draft), "facility", draft.id());
            return new Added<>(get(draft.id()), false);
        }
        rows.saveAndFlush(new FacilityRow(draft.id(), draft.name(), draft.timeZone()));
        return new Added<>(get(draft.id()), true);
    }

    @Transactional
    Facility edit(UUID id, FacilityDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        var row = row(id);
        row.mustBeAt(expectedVersion);
        row.edit(draft.name(), draft.timeZone());
        rows.saveAndFlush(row);
        return get(id);
    }

    @Transactional
    Facility retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        var row = row(id);
        InUse.refuse(
                jdbc,
                "The facility still has rooms in use: %s. Retire them first.",
                "select name from room where facility_id = ? and retired_at is null order by name",
                id);
        InUse.refuse(
                jdbc,
                "The facility still has displays in use: %s. Retire them first, or edit their facility.",
                "select name from display where facility_id = ? and retired_at is null order by name",
                id);
        row.retire(clock.instant(), retirement.reason());
        rows.saveAndFlush(row);
        return get(id);
    }

    @Transactional(readOnly = true)
    Facility get(UUID id) {
        return new Query(SELECT)
                .where("f.id = :id", "id", id)
                .one(jdbc, Facilities::facility)
                .orElseThrow(() -> Refusal.notFound("facility", id));
    }

    @Transactional(readOnly = true)
    Page<Facility> page(@Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("f.name = :name", "name", name)
                .retired(retired, "f.retired_at")
                .page(jdbc, Facilities::facility, paging, "f.name", "f.id", KEY);
    }

    /** The facilities in use, by name. */
    List<Facility> inUse() {
        return new Query(SELECT).retired(false, "f.retired_at").list(jdbc, Facilities::facility, "f.name");
    }

    private FacilityRow row(UUID id) {
        return rows.findById(id).orElseThrow(() -> Refusal.notFound("facility", id));
    }

    /** Refuses a time zone that has no IANA name. */
    static void checkTimeZone(Checks checks, String pointer, String timeZone) {
        checks.that(
                ZoneId.getAvailableZoneIds().contains(timeZone),
                pointer,
                "\"" + timeZone + "\" is no time zone: give its IANA name, e.g. Europe/Lisbon.");
    }

    private static void check(FacilityDraft draft) {
        var checks = new Checks().name("/name", draft.name());
        checkTimeZone(checks, "/timeZone", draft.timeZone());
        checks.refuse();
    }

    private static Facility facility(ResultSet rs, int n) throws SQLException {
        return new Facility(
                rs.getObject("id", UUID.class),
                rs.getString("name"),
                rs.getString("time_zone"),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }
}
