package panelbook.app.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.app.database.EditedRow;
import panelbook.wire.DisplayDraft;

/** A display as it stands in the book; where it stands is said by its stays. */
@Entity
@Table(name = "display")
class DisplayRow extends EditedRow {

    private UUID facilityId;
    private String name;
    private String model;
    private String panelTechnology;
    private @Nullable String serialNumber;
    private @Nullable String notes;

    @SuppressWarnings("NullAway.Init")
    protected DisplayRow() {}

    DisplayRow(DisplayDraft draft) {
        super(draft.id());
        take(draft);
    }

    UUID facilityId() {
        return facilityId;
    }

    String name() {
        return name;
    }

    /** Whether {@code draft} says of the display itself what the book says. */
    boolean sameAs(DisplayDraft draft) {
        return facilityId.equals(draft.facilityId())
                && name.equals(draft.name())
                && model.equals(draft.model())
                && panelTechnology.equals(draft.panelTechnology())
                && Objects.equals(serialNumber, draft.serialNumber())
                && Objects.equals(notes, draft.notes());
    }

    void edit(DisplayDraft draft) {
        mustBeInUse();
        take(draft);
    }

    private void take(DisplayDraft draft) {
        facilityId = draft.facilityId();
        name = draft.name();
        model = draft.model();
        panelTechnology = draft.panelTechnology();
        serialNumber = draft.serialNumber();
        notes = draft.notes();
    }

    @Override
    protected String called() {
        return "display \"" + name + "\"";
    }
}
