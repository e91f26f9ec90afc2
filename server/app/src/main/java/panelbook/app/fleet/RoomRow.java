package panelbook.app.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import panelbook.app.database.EditedRow;
import panelbook.wire.RoomDraft;

/** A room as it stands in the book; it never leaves its facility. */
@Entity
@Table(name = "room")
class RoomRow extends EditedRow {

    private UUID facilityId;
    private String name;
    private String timeZone;

    @SuppressWarnings("NullAway.Init")
    protected RoomRow() {}

    RoomRow(UUID id, UUID facilityId, String name, String timeZone) {
        super(id);
        this.facilityId = facilityId;
        this.name = name;
        this.timeZone = timeZone;
    }

    UUID facilityId() {
        return facilityId;
    }

    String name() {
        return name;
    }

    String timeZone() {
        return timeZone;
    }

    RoomDraft draft() {
        return new RoomDraft(id(), facilityId, name, timeZone);
    }

    void edit(String newName, String newTimeZone) {
        mustBeInUse();
        name = newName;
        timeZone = newTimeZone;
    }

    @Override
    protected String called() {
        return "room \"" + name + "\"";
    }
}
