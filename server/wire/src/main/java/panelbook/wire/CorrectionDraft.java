package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A correction to make: for the display that the two runs were taken on, or for its model.
 *
 * @param displayId null when it is for a model
 * @param model null when it is for a display
 * @param referenceRunId run of the reference instrument; holds red, green and blue alone, and white
 * @param fieldRunId run of the field meter on the same preset, with the same patches
 * @param keepsLuminance takes chromaticity alone from the reference, for runs that were not taken in one go
 * @param validFrom for runs taken from then on, e.g. since the meter was repaired; null for all
 */
public record CorrectionDraft(
        UUID id,
        @Nullable UUID displayId,
        @Nullable String model,
        UUID referenceRunId,
        UUID fieldRunId,
        boolean keepsLuminance,
        @Nullable Instant validFrom,
        @Nullable String note) {}
