package panelbook.colorimetry;

import java.util.Optional;

/**
 * Absolute tristimulus values of the CIE 1931 standard observer.
 *
 * <p>Range: finite. A measured colour is not negative; a matrix correction can leave values just below zero near black,
 * so they are allowed here and refused where readings enter. Source: CIE 015:2018.
 *
 * @param x tristimulus X, cd/m2
 * @param y tristimulus Y, the luminance, cd/m2
 * @param z tristimulus Z, cd/m2
 */
public record XYZ(double x, double y, double z) {
    public static final XYZ BLACK = new XYZ(0, 0, 0);

    public XYZ {
        Require.finite("X in cd/m2", x);
        Require.finite("Y in cd/m2", y);
        Require.finite("Z in cd/m2", z);
    }

    /**
     * A colour from its chromaticity and luminance (the xyY of the trade).
     *
     * @param chromaticity x, y; y must not be zero
     * @param luminance Y, cd/m2
     * @return X = x Y / y, Y, Z = (1 - x - y) Y / y
     * @throws IllegalArgumentException when the chromaticity's y is zero
     */
    public static XYZ of(Chromaticity chromaticity, double luminance) {
        double y = Require.positive("chromaticity y", chromaticity.y());
        double scale = luminance / y;
        return new XYZ(chromaticity.x() * scale, luminance, (1 - chromaticity.x() - y) * scale);
    }

    /**
     * A colour from its CIE 1976 chromaticity and luminance.
     *
     * @param uv u', v'; v' must be greater than zero
     * @param luminance Y, cd/m2
     * @return X = 9 u' Y / (4 v'), Y, Z = (12 - 3 u' - 20 v') Y / (4 v')
     * @throws IllegalArgumentException when v' is not greater than zero
     */
    public static XYZ of(UV1976 uv, double luminance) {
        double scale = luminance / (4 * Require.positive("chromaticity v'", uv.v()));
        return new XYZ(9 * uv.u() * scale, luminance, (12 - 3 * uv.u() - 20 * uv.v()) * scale);
    }

    /**
     * The luminance.
     *
     * @return Y, cd/m2
     */
    public double luminance() {
        return y;
    }

    /**
     * The CIE 1931 chromaticity.
     *
     * @return x, y; empty when X + Y + Z is not greater than zero: black has no chromaticity
     */
    public Optional<Chromaticity> chromaticity() {
        double sum = x + y + z;
        return sum > 0 ? Optional.of(new Chromaticity(x / sum, y / sum)) : Optional.empty();
    }

    /**
     * The CIE 1976 chromaticity: u' = 4 X / (X + 15 Y + 3 Z), v' = 9 Y / (X + 15 Y + 3 Z).
     *
     * @return u', v'; empty when {@link #hasChromaticity} says no
     */
    public Optional<UV1976> uv1976() {
        if (!hasChromaticity()) {
            return Optional.empty();
        }
        double sum = uvSum();
        return Optional.of(new UV1976(4 * x / sum, 9 * y / sum));
    }

    /**
     * Whether there is light enough to speak of its colour.
     *
     * @return true when Y and X + 15 Y + 3 Z are greater than zero
     */
    public boolean hasChromaticity() {
        return y > 0 && uvSum() > 0;
    }

    private double uvSum() {
        return x + 15 * y + 3 * z;
    }

    /**
     * The same chromaticity at another luminance.
     *
     * @param factor what each value is multiplied by
     * @return the scaled colour
     */
    public XYZ times(double factor) {
        return new XYZ(x * factor, y * factor, z * factor);
    }

    /**
     * Additive mixture.
     *
     * @param other the light to add
     * @return the sum (Grassmann's law, CIE 015:2018)
     */
    public XYZ plus(XYZ other) {
        return new XYZ(x + other.x, y + other.y, z + other.z);
    }
}
