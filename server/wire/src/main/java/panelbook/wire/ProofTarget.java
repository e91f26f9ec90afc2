package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * A target on a proof, with the presets that aim at it.
 *
 * @param aim the target in words
 * @param toleranceSet name of the set of limits
 * @param toleranceSetVersion its revision in force then
 * @param conformanceProbability that a decision asks for, 0.5 to 1, JCGM 106
 * @param coverageFactor of its guard band: a figure is within when it is inside its limit by so many standard uncertainties
 * @param warmUpMinutes before a run counts
 * @param presets the hero first, then its followers
 */
public record ProofTarget(
        UUID id,
        String name,
        String aim,
        String toleranceSet,
        long toleranceSetVersion,
        double conformanceProbability,
        double coverageFactor,
        int warmUpMinutes,
        List<ProofPreset> presets) {}
