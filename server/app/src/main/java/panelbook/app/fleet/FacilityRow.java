package panelbook.app.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import panelbook.app.database.EditedRow;
import panelbook.wire.FacilityDraft;

/** A facility as it stands in the book. */
@Entity
@Table(name = "facility")
class FacilityRow extends EditedRow {

    private String name;
    private String timeZone;

    @SuppressWarnings("NullAway.Init")
    protected FacilityRow() {}

    FacilityRow(UUID id, String name, String timeZone) {
        super(id);
        this.name = name;
        this.timeZone = timeZone;
    }

    String name() {
        return name;
    }

    String timeZone() {
        return timeZone;
    }

    FacilityDraft draft() {
        return new FacilityDraft(id(), name, timeZone);
    }

    void edit(String newName, String newTimeZone) {
        mustBeInUse();
        name = newName;
        timeZone = newTimeZone;
    }

    @Override
    protected String called() {
        return "facility \"" + name + "\"";
    }
}
