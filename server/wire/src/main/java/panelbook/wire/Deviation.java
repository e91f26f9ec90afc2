package panelbook.wire;

/**
 * Colour differences of a run from its target.
 *
 * @param mean over the patches
 * @param percentile95 that 95 % of the patches do not exceed
 * @param maximum over the patches
 * @param worst the patch with the maximum, as code values
 * @param patches how many
 */
public record Deviation(double mean, double percentile95, double maximum, String worst, int patches) {}
