package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Points at a reading that a finding rests on, or, without code values, at all readings of a run.
 *
 * @param red code value; null with the others for every reading of the run
 */
public record ReadingRef(
        UUID runId,
        @Nullable Integer red,
        @Nullable Integer green,
        @Nullable Integer blue) {

    /** Every reading of a run. */
    public static ReadingRef all(UUID runId) {
        return new ReadingRef(runId, null, null, null);
    }
}
