package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A meter.
 *
 * @param name unique
 * @param luminanceUncertaintyPercent expanded, k = 2
 * @param luminanceRepeatabilityPercent standard deviation
 * @param chromaticityUncertainty expanded, k = 2, in each of u′ and v′
 * @param chromaticityRepeatability standard deviation, in each of u′ and v′
 * @param luminanceFloor standard deviation on black, cd/m²
 * @param certificate the one that expires last
 * @param version ETag
 */
public record Instrument(
        UUID id,
        String name,
        InstrumentKind kind,
        @Nullable String serialNumber,
        double luminanceUncertaintyPercent,
        double luminanceRepeatabilityPercent,
        double chromaticityUncertainty,
        double chromaticityRepeatability,
        double luminanceFloor,
        @Nullable Certificate certificate,
        @Nullable Instant retiredAt,
        long version) {}
