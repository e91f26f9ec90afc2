package panelbook.colorimetry.trim;

import panelbook.colorimetry.Require;

/**
 * What counts as equally far off.
 *
 * @param chromaticity in u' and in v', greater than zero
 * @param lnLuminance in ln luminance, greater than zero
 */
public record Tolerances(double chromaticity, double lnLuminance) {
    /** 0.001 in u' and v', 1 % in luminance. House rule. */
    public static final Tolerances DEFAULT = new Tolerances(0.001, 0.01);

    public Tolerances {
        Require.positive("tolerance of u' and v'", chromaticity);
        Require.positive("tolerance of ln luminance", lnLuminance);
    }

    double of(Figure figure) {
        return figure == Figure.LN_LUMINANCE ? lnLuminance : chromaticity;
    }
}
