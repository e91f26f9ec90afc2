package panelbook.app.matching.advice;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import org.jspecify.annotations.Nullable;
import panelbook.app.database.EditedRow;
import panelbook.app.rest.Words;
import panelbook.wire.AdviceDraft;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Look;
import panelbook.wire.Place;

/** A line of the table of advice as it stands in the book. */
@Entity
@Table(name = "advice")
class AdviceRow extends EditedRow {

    private String moment;
    private @Nullable String look;
    private @Nullable String place;
    private @Nullable String firstControl;
    private String text;
    private String basis;

    @SuppressWarnings("NullAway.Init")
    protected AdviceRow() {}

    AdviceRow(AdviceDraft draft) {
        super(draft.id());
        take(draft);
    }

    AdviceDraft draft() {
        return new AdviceDraft(
                id(),
                Words.of(AdviceMoment.class, moment),
                look == null ? null : Words.of(Look.class, look),
                place == null ? null : Words.of(Place.class, place),
                firstControl,
                text,
                basis);
    }

    void edit(AdviceDraft draft) {
        mustBeInUse();
        take(draft);
    }

    private void take(AdviceDraft draft) {
        moment = draft.moment().toString();
        look = draft.look() == null ? null : draft.look().toString();
        place = draft.place() == null ? null : draft.place().toString();
        firstControl = draft.firstControl();
        text = draft.text();
        basis = draft.basis();
    }

    @Override
    protected String called() {
        return "line of advice \"" + text + "\"";
    }
}
