package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A correction of a field meter by the four-colour matrix method. It holds for one display or for a model, and is applied
 * when readings are read: they stay as they were taken.
 *
 * @param name as figures name it, e.g. "Probe A on LCD-31 (model), version 2"
 * @param instrument name of the field meter
 * @param displayId the display it holds for; null when it holds for a model
 * @param display its name
 * @param model the model it holds for; null when it holds for a display
 * @param version counted per meter and place, from 1
 * @param referenceRunId the run of the reference instrument that it was made from
 * @param reference name of that instrument
 * @param fieldRunId the field meter's run of the same patches
 * @param keepsLuminance whether chromaticity alone was taken from the reference
 * @param matrix nine numbers, row by row, no unit
 * @param luminanceFactor what the luminance is multiplied by after that
 * @param validFrom it is for runs taken from then on; null for all
 * @param validUntil it is for runs taken before; null when no later one follows
 * @param inForce whether any run is read with it, now or to come
 * @param recordedBy holder of the token
 * @param withdrawal null unless it was withdrawn
 */
public record Correction(
        UUID id,
        String name,
        UUID instrumentId,
        String instrument,
        @Nullable UUID displayId,
        @Nullable String display,
        @Nullable String model,
        int version,
        UUID referenceRunId,
        String reference,
        UUID fieldRunId,
        boolean keepsLuminance,
        List<Double> matrix,
        double luminanceFactor,
        @Nullable Instant validFrom,
        @Nullable Instant validUntil,
        boolean inForce,
        @Nullable String note,
        Instant recordedAt,
        String recordedBy,
        @Nullable CorrectionWithdrawal withdrawal) {}
