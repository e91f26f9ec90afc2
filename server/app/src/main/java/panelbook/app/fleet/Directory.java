package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.rest.Refusal;
import panelbook.wire.Facility;
import panelbook.wire.Room;

/** Facilities and rooms, for those who show what happens in them. */
@Component
public class Directory {

    private final Facilities facilities;
    private final Rooms rooms;

    Directory(Facilities facilities, Rooms rooms) {
        this.facilities = facilities;
        this.rooms = rooms;
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
}
