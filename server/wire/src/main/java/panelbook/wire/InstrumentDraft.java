package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * An instrument to add or edit.
 *
 * @param name unique
 * @param luminanceUncertaintyPercent expanded, k = 2
 * @param luminanceRepeatabilityPercent standard deviation
 * @param chromaticityUncertainty expanded, k = 2, in each of u′ and v′
 * @param chromaticityRepeatability standard deviation, in each of u′ and v′
 * @param luminanceFloor standard deviation on black, cd/m²
 */
public record InstrumentDraft(
        UUID id,
        String name,
        InstrumentKind kind,
        @Nullable String serialNumber,
        double luminanceUncertaintyPercent,
        double luminanceRepeatabilityPercent,
        double chromaticityUncertainty,
        double chromaticityRepeatability,
        double luminanceFloor) {}
