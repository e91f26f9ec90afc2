package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A target to add or edit.
 *
 * @param name unique
 * @param gamma exponent, only for power
 * @param bitDepth 8 to 16
 * @param peakLuminance aim, cd/m²
 * @param blackLuminance aim, cd/m²
 */
public record TargetDraft(
        UUID id,
        String name,
        Primaries primaries,
        EotfKind eotf,
        @Nullable Double gamma,
        SignalRange signalRange,
        int bitDepth,
        double peakLuminance,
        double blackLuminance,
        UUID toleranceSetId) {}
