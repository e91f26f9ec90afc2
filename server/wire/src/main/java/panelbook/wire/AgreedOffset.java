package panelbook.wire;

import java.util.List;

/**
 * The measured difference that the operator signed off.
 *
 * @param du follower − hero, u′ of white
 * @param dv follower − hero, v′ of white
 * @param duv length of that vector
 * @param luminancePercent follower over hero − 1, white, %
 * @param chromaticityUncertainty standard uncertainty of du and of dv
 * @param luminanceUncertaintyPercent standard uncertainty of luminancePercent, %
 * @param corrections of the meters that the closing runs are read with, by name, place and version
 */
public record AgreedOffset(
        double du,
        double dv,
        double duv,
        double luminancePercent,
        double chromaticityUncertainty,
        double luminanceUncertaintyPercent,
        List<String> corrections) {}
