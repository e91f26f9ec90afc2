package panelbook.colorimetry.signal;

import panelbook.colorimetry.Require;

/**
 * What a display shows for black and for white.
 *
 * @param black Lb, cd/m2, not negative
 * @param white Lw, cd/m2, greater than black
 */
public record LuminanceRange(double black, double white) {
    public LuminanceRange {
        Require.notNegative("black luminance in cd/m2", black);
        Require.finite("white luminance in cd/m2", white);
        if (white <= black) {
            throw new IllegalArgumentException(
                    "white luminance " + white + " cd/m2 must be greater than black luminance " + black + " cd/m2");
        }
    }

    /**
     * The nearest luminance within.
     *
     * @param luminance cd/m2
     * @return black to white, cd/m2
     */
    public double clip(double luminance) {
        return Math.min(Math.max(luminance, black), white);
    }
}
