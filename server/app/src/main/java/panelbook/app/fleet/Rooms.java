package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
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
import panelbook.wire.Page;
import panelbook.wire.Retirement;
import panelbook.wire.Room;
import panelbook.wire.RoomDraft;

/** All rooms. */
@Component
class Rooms {

    private static final String SELECT = """
            select r.id, r.facility_id, f.name as facility, r.name, r.time_zone, r.retired_at, r.version
            from room r join facility f on f.id = r.facility_id""";
    private static final Query.Key<Room> KEY = new Query.Key<>(Room::name, Room::id);

    private final RoomRows rows;
    private final FacilityRows facilities;
    private final JdbcClient jdbc;
    private final Clock clock;

    Rooms(RoomRows rows, FacilityRows facilities, JdbcClient jdbc, Clock clock) {
        this.rows = rows;
        this.facilities = facilities;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Transactional
    Added<Room> add(RoomDraft draft) {
        var complete = complete(draft);
        var there = rows.findById(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(there.get().draft().equals(complete), "room", draft.id());
            return new Added<>(get(draft.id()), false);
        }
        facilities.findById(draft.facilityId()).orElseThrow().mustBeInUse();
        rows.saveAndFlush(new RoomRow(draft.id(), draft.facilityId(), draft.name(), zone(complete)));
        return new Added<>(get(draft.id()), true);
    }

    @Transactional
    Room edit(UUID id, RoomDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        var complete = complete(draft);
        var row = row(id);
        row.mustBeAt(expectedVersion);
        if (!row.facilityId().equals(draft.facilityId())) {
            throw Refusal.invalid("/facilityId", "A room stays in its facility: add one to the other facility.");
        }
        row.edit(draft.name(), zone(complete));
        rows.saveAndFlush(row);
        return get(id);
    }

    @Transactional
    Room retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        RowLock.ROOM.take(jdbc, id);
        var row = row(id);
        InUse.refuse(jdbc, "Displays still stand in the room: %s. Move them out first.", """
                select d.name from display_stay s join display d on d.id = s.display_id
                where s.room_id = ? and upper_inf(s.during) order by d.name""", id);
        row.retire(clock.instant(), retirement.reason());
        rows.saveAndFlush(row);
        return get(id);
    }

    @Transactional(readOnly = true)
    Room get(UUID id) {
        return new Query(SELECT)
                .where("r.id = :id", "id", id)
                .one(jdbc, Rooms::room)
                .orElseThrow(() -> Refusal.notFound("room", id));
    }

    @Transactional(readOnly = true)
    Page<Room> page(@Nullable UUID facility, @Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("r.facility_id = :facility", "facility", facility)
                .where("r.name = :name", "name", name)
                .retired(retired, "r.retired_at")
                .page(jdbc, Rooms::room, paging, "r.name", "r.id", KEY);
    }

    /** The rooms of a facility that are in use, by name; of all facilities when null. */
    List<Room> inUse(@Nullable UUID facility) {
        return new Query(SELECT)
                .where("r.facility_id = :facility", "facility", facility)
                .retired(false, "r.retired_at")
                .list(jdbc, Rooms::room, "r.name");
    }

    private RoomRow row(UUID id) {
        return rows.findById(id).orElseThrow(() -> Refusal.notFound("room", id));
    }

    private RoomDraft complete(RoomDraft draft) {
        var checks = new Checks().name("/name", draft.name());
        if (draft.timeZone() != null) {
            Facilities.checkTimeZone(checks, "/timeZone", draft.timeZone());
        }
        var facility = facilities.findById(draft.facilityId());
        checks.that(facility.isPresent(), "/facilityId", "There is no facility " + draft.facilityId() + ".");
        checks.refuse();
        return draft.timeZone() != null
                ? draft
                : new RoomDraft(
                        draft.id(),
                        draft.facilityId(),
                        draft.name(),
                        facility.orElseThrow().timeZone());
    }

    private static String zone(RoomDraft complete) {
        return Objects.requireNonNull(complete.timeZone());
    }

    private static Room room(ResultSet rs, int n) throws SQLException {
        return new Room(
                rs.getObject("id", UUID.class),
                rs.getObject("facility_id", UUID.class),
                rs.getString("facility"),
                rs.getString("name"),
                rs.getString("time_zone"),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }
}
