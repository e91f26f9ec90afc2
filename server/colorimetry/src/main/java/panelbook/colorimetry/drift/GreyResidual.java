package panelbook.colorimetry.drift;

import panelbook.colorimetry.signal.Patch;

/**
 * One grey of follower and hero.
 *
 * @param signal level, 0 for black, 1 for white
 * @param patch in the code values of the follower's run now
 * @param luminance residual of its luminance
 * @param chromaticity residual of its chromaticity
 */
public record GreyResidual(
        double signal, Patch patch, LuminanceResidual luminance, ChromaticityResidual chromaticity) {}
