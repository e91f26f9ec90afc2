package panelbook.app.instruments;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import org.jspecify.annotations.Nullable;
import panelbook.app.database.EditedRow;
import panelbook.app.rest.Words;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;

/** A meter as it stands in the book. */
@Entity
@Table(name = "instrument")
class InstrumentRow extends EditedRow {

    private String name;
    private String kind;
    private @Nullable String serialNumber;
    private double luminanceUncertainty;
    private double luminanceRepeatability;
    private double chromaticityUncertainty;
    private double chromaticityRepeatability;
    private double luminanceFloor;

    @SuppressWarnings("NullAway.Init")
    protected InstrumentRow() {}

    InstrumentRow(InstrumentDraft draft) {
        super(draft.id());
        take(draft);
    }

    String name() {
        return name;
    }

    InstrumentDraft draft() {
        return new InstrumentDraft(
                id(),
                name,
                Words.of(InstrumentKind.class, kind),
                serialNumber,
                luminanceUncertainty,
                luminanceRepeatability,
                chromaticityUncertainty,
                chromaticityRepeatability,
                luminanceFloor);
    }

    void edit(InstrumentDraft draft) {
        mustBeInUse();
        take(draft);
    }

    private void take(InstrumentDraft draft) {
        name = draft.name();
        kind = draft.kind().toString();
        serialNumber = draft.serialNumber();
        luminanceUncertainty = draft.luminanceUncertaintyPercent();
        luminanceRepeatability = draft.luminanceRepeatabilityPercent();
        chromaticityUncertainty = draft.chromaticityUncertainty();
        chromaticityRepeatability = draft.chromaticityRepeatability();
        luminanceFloor = draft.luminanceFloor();
    }

    @Override
    protected String called() {
        return "instrument \"" + name + "\"";
    }
}
