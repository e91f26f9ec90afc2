package panelbook.app.fleet;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;
import panelbook.app.rest.Refusal;
import panelbook.wire.Facility;
import panelbook.wire.Room;

/** Facilities and rooms, for those who show what happens in them. */
@Component
public class Directory {

    private final Facilities facilities;
    private final Rooms rooms;
    private final JdbcClient jdbc;

    Directory(Facilities facilities, Rooms rooms, JdbcClient jdbc) {
        this.facilities = facilities;
        this.rooms = rooms;
        this.jdbc = jdbc;
    }

    /** The facilities in use, by name. */
    @Transactional(readOnly = true)
    public List<Facility> facilities() {
        return facilities.inUse();
    }

    /**
     * A facility, retired or not.
     *
     * @throws Refusal when there is none
     */
    @Transactional(readOnly = true)
    public Facility facility(UUID id) {
        return facilities.get(id);
    }

    /** The rooms in use of a facility, by name; of all facilities when null. */
    @Transactional(readOnly = true)
    public List<Room> rooms(@Nullable UUID facility) {
        return rooms.inUse(facility);
    }

    /**
     * A room, retired or not.
     *
     * @throws Refusal when there is none
     */
    @Transactional(readOnly = true)
    public Room room(UUID id) {
        return rooms.get(id);
    }

    /** Where presets are now; one statement reads any number. */
    @Transactional(readOnly = true)
    public Map<UUID, Place> places(Collection<UUID> presetIds) {
        var places = new HashMap<UUID, Place>();
        jdbc.sql("""
                        select p.id, p.display_id, s.room_id, r.time_zone
                        from preset p
                        left join display_stay s on s.display_id = p.display_id and upper_inf(s.during)
                        left join room r on r.id = s.room_id
                        where p.id = any (:presets)
                        """).param("presets", presetIds.toArray(new UUID[0])).query(row -> {
            places.put(
                    Rows.id(row, "id"),
                    new Place(Rows.id(row, "display_id"), Rows.idOrNull(row, "room_id"), row.getString("time_zone")));
        });
        return places;
    }

    /**
     * Where a preset is.
     *
     * @param roomId null when its display stands in no room
     * @param timeZone IANA name, of that room
     */
    public record Place(
            UUID displayId, @Nullable UUID roomId, @Nullable String timeZone) {}
}
