package panelbook.wire;

/**
 * The measured difference that the operator signed off.
 *
 * @param du follower − hero, u′ of white
 * @param dv follower − hero, v′ of white
 * @param duv length of that vector
 * @param luminancePercent follower over hero − 1, white, %
 * @param chromaticityUncertainty standard uncertainty of du and of dv
 * @param luminanceUncertaintyPercent standard uncertainty of luminancePercent, %
 */
public record AgreedOffset(
        double du,
        double dv,
        double duv,
        double luminancePercent,
        double chromaticityUncertainty,
        double luminanceUncertaintyPercent) {}
