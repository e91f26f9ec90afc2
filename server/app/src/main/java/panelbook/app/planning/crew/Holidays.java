package panelbook.app.planning.crew;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
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
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Holiday;
import panelbook.wire.HolidayDraft;

/** Days on which nobody works. */
@Component
public class Holidays {

    private static final String SELECT =
            "select h.*, f.name as facility from holiday h left join facility f on f.id = h.facility_id";

    private final JdbcClient jdbc;
    private final Clock clock;

    Holidays(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Notes a holiday; the same draft again is harmless. */
    @Transactional
    Added<Holiday> add(HolidayDraft draft) {
        new Checks()
                .line("/name", draft.name(), 200)
                .that(Dates.sensible(draft.day()), "/day", Dates.WORDS)
                .that(
                        draft.facilityId() == null || Rows.exists(jdbc, "facility", draft.facilityId()),
                        "/facilityId",
                        "There is no facility " + draft.facilityId() + ".")
                .refuse();
        var isNew = jdbc.sql("""
                        insert into holiday (id, facility_id, day, name, recorded_at, recorded_by)
                        values (:id, :facility, :day, :name, :now, :by) on conflict (id) do nothing""")
                        .param("id", draft.id())
                        .param("facility", draft.facilityId())
                        .param("day", draft.day())
                        .param("name", draft.name())
                        .param("now", Rows.at(clock.instant()))
                        .param("by", Caller.current().holder())
                        .update()
                > 0;
        var there = get(draft.id());
        Repeats.mustBeSame(
                draft.equals(new HolidayDraft(there.id(), there.facilityId(), there.day(), there.name())),
                "holiday",
                draft.id());
        return new Added<>(there, isNew);
    }

    /** Takes a holiday back; once more is harmless. */
    @Transactional
    Holiday cancel(UUID id) {
        get(id);
        jdbc.sql("""
                        update holiday set cancelled_at = :now, cancelled_by = :by
                        where id = :id and cancelled_at is null""")
                .param("id", id)
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .update();
        return get(id);
    }

    @Transactional(readOnly = true)
    List<Holiday> list(
            @Nullable UUID facility, @Nullable LocalDate from, @Nullable LocalDate until, boolean cancelledToo) {
        var query = new Query(SELECT)
                .where("(h.facility_id is null or h.facility_id = :facility)", "facility", facility)
                .where("h.day >= :from", "from", from)
                .where("h.day <= :until", "until", until);
        return (cancelledToo ? query : query.where("h.cancelled_at is null"))
                .list(jdbc, Holidays::holiday, "h.day, h.name, h.id");
    }

    /** Those that hold from one day to another, both included. */
    public List<Holiday> during(LocalDate from, LocalDate to) {
        return list(null, from, to, false);
    }

    private Holiday get(UUID id) {
        return new Query(SELECT)
                .where("h.id = :id", "id", id)
                .one(jdbc, Holidays::holiday)
                .orElseThrow(() -> Refusal.notFound("holiday", id));
    }

    private static Holiday holiday(ResultSet row, int n) throws SQLException {
        return new Holiday(
                Rows.id(row, "id"),
                Rows.idOrNull(row, "facility_id"),
                row.getString("facility"),
                row.getObject("day", LocalDate.class),
                row.getString("name"),
                Rows.instant(row, "recorded_at"),
                row.getString("recorded_by"),
                Rows.instantOrNull(row, "cancelled_at"),
                row.getString("cancelled_by"));
    }
}
