package panelbook.colorimetry.signalpath;

/**
 * One explanation and its evidence.
 *
 * @param explanation what may have happened
 * @param score BIC and the prior, no unit; the smaller the likelier
 * @param rmsLogResidual how far the readings lie from the best curve of this explanation, as a root mean square in ln
 *     luminance, eased near black
 * @param white luminance of white of that curve, cd/m2
 * @param black luminance of black of that curve, cd/m2
 */
public record Ranked(Explanation explanation, double score, double rmsLogResidual, double white, double black) {}
