package panelbook.app.planning;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A state that a preset was left in.
 *
 * @param from since when
 * @param runId the run that shows it; null when it was signed off unmeasured
 * @param operator whom it was matched for; null for a baseline
 */
record LeftState(
        UUID presetId,
        Instant from,
        @Nullable UUID runId,
        @Nullable String operator) {

    boolean signed() {
        return operator != null;
    }

    /** Tells states apart. */
    String key() {
        return (signed() ? "sign-off " : "baseline ") + from;
    }
}
