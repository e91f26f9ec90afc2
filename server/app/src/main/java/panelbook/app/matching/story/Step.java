package panelbook.app.matching.story;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.trim.Control;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;

/**
 * A step of a match as the book holds it.
 *
 * @param said what it says
 * @param of whose reading it is; null for other kinds, and for a run that stands on neither preset any more
 * @param recordedBy holder of the token
 */
public record Step(StepDraft said, @Nullable Half of, String recordedBy) {

    /** The halves of a pair. */
    public enum Half {
        FOLLOWER,
        HERO
    }

    /** From 1. */
    public int number() {
        return said.number();
    }

    /** The run of a reading of this half; null for any other step. */
    public @Nullable UUID runOf(Half half) {
        return said.kind() == StepKind.READING && of == half ? said.runId() : null;
    }

    /** The control that an override names; null for any other step. */
    @Nullable
    Control overridden() {
        var control = said.control();
        var level = said.level();
        return said.kind() == StepKind.OVERRIDE && control != null && level != null
                ? Controls.of(control, level)
                : null;
    }
}
