package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * An aim.
 *
 * @param name unique
 * @param gamma exponent, only for power
 * @param bitDepth 8 to 16
 * @param peakLuminance aim, cd/m²
 * @param blackLuminance aim, cd/m²
 * @param toleranceSet its name
 * @param version ETag; findings name it
 */
public record Target(
        UUID id,
        String name,
        Primaries primaries,
        EotfKind eotf,
        @Nullable Double gamma,
        SignalRange signalRange,
        int bitDepth,
        double peakLuminance,
        double blackLuminance,
        UUID toleranceSetId,
        String toleranceSet,
        @Nullable Instant retiredAt,
        long version) {}
