package panelbook.wire;

/**
 * What is expected to be left at a grey.
 *
 * @param grey % of white
 * @param du in u′
 * @param dv in v′
 * @param luminancePercent of the luminance wanted, %
 * @param chromaticityUncertainty standard, of du and dv each (the larger)
 * @param luminanceUncertaintyPercent standard
 */
public record ExpectedRest(
        int grey,
        double du,
        double dv,
        double luminancePercent,
        double chromaticityUncertainty,
        double luminanceUncertaintyPercent) {}
