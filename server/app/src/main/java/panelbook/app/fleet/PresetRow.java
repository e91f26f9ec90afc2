package panelbook.app.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import panelbook.app.database.EditedRow;
import panelbook.app.rest.Refusal;
import panelbook.wire.PresetDraft;

/** A preset as it stands in the book; what was measured on it was measured for its display and its target. */
@Entity
@Table(name = "preset")
class PresetRow extends EditedRow {

    private UUID displayId;
    private String name;
    private UUID targetId;

    @SuppressWarnings("NullAway.Init")
    protected PresetRow() {}

    PresetRow(PresetDraft draft) {
        super(draft.id());
        displayId = draft.displayId();
        name = draft.name();
        targetId = draft.targetId();
    }

    UUID displayId() {
        return displayId;
    }

    String name() {
        return name;
    }

    UUID targetId() {
        return targetId;
    }

    PresetDraft draft() {
        return new PresetDraft(id(), displayId, name, targetId);
    }

    void edit(PresetDraft draft) {
        mustBeInUse();
        if (!draft.displayId().equals(displayId)) {
            throw Refusal.invalid("/displayId", "A preset stays on its display: add one to the other display.");
        }
        if (!draft.targetId().equals(targetId)) {
            throw Refusal.invalid(
                    "/targetId", "A preset for another target is another preset: add it under a name of its own.");
        }
        name = draft.name();
    }

    @Override
    protected String called() {
        return "preset \"" + name + "\"";
    }
}
