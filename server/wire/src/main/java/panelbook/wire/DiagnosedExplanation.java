package panelbook.wire;

/**
 * An explanation of a grey ramp and its evidence.
 *
 * @param explanation its word
 * @param residualPercent how far the readings lie from its best curve, root mean square of the luminance
 * @param score the smaller the likelier, no unit
 * @param whiteLuminance of that curve, cd/m²
 * @param blackLuminance of that curve, cd/m²
 */
public record DiagnosedExplanation(
        String explanation, double residualPercent, double score, double whiteLuminance, double blackLuminance) {}
