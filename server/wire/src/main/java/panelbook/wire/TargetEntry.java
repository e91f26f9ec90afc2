package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * A target in a facility book.
 *
 * @param gamma exponent, only for power
 * @param bitDepth 8 to 16
 * @param peakLuminance aim, cd/m²
 * @param blackLuminance aim, cd/m²
 * @param toleranceSet its name, in the book or known already
 */
public record TargetEntry(
        String name,
        Primaries primaries,
        EotfKind eotf,
        @Nullable Double gamma,
        SignalRange signalRange,
        int bitDepth,
        double peakLuminance,
        double blackLuminance,
        String toleranceSet) {}
