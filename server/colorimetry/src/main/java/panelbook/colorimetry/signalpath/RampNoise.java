package panelbook.colorimetry.signalpath;

import panelbook.colorimetry.Require;

/**
 * How far readings of a ramp scatter about a right curve.
 *
 * @param relative standard deviation of a luminance, relative to it, greater than zero: the meter's noise and the
 *     unevenness of a calibrated grey scale together
 * @param floor standard deviation of a reading of no light, cd/m2, greater than zero
 */
public record RampNoise(double relative, double floor) {
    /** 2 % and 0.002 cd/m2: a grey scale of good quality under a colorimeter. Common practice, no published source. */
    public static final RampNoise DEFAULT = new RampNoise(0.02, 0.002);

    public RampNoise {
        Require.positive("relative noise", relative);
        Require.positive("luminance floor in cd/m2", floor);
    }

    /**
     * The logarithm of a luminance in units of its noise, made to end gently near black.
     *
     * <p>Its derivative is 1 / sqrt(floor2 + relative2 L2), so that every reading has a standard deviation of 1. Source:
     * the generalised logarithm, Durbin, Hardin, Hawkins and Rocke, Bioinformatics 18 Suppl. 1 (2002) S105-S110.
     *
     * @param luminance L, cd/m2, not negative
     * @return asinh(L relative / floor) / relative: ln(L) / relative plus a constant far above floor / relative
     */
    double stabilised(double luminance) {
        double ratio = luminance * relative / floor;
        return Math.log(ratio + Math.sqrt(1 + ratio * ratio)) / relative;
    }
}
