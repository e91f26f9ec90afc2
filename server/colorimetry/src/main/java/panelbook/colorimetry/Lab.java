package panelbook.colorimetry;

/**
 * CIE 1976 L*a*b*, against a stated white. Source: ISO/CIE 11664-4:2019.
 *
 * @param lightness L*, 0 for black to 100 for the white
 * @param a a*, no unit
 * @param b b*, no unit
 */
public record Lab(double lightness, double a, double b) {
    private static final double DELTA = 6.0 / 29;

    public Lab {
        Require.finite("L*", lightness);
        Require.finite("a*", a);
        Require.finite("b*", b);
    }

    /**
     * CIELAB of a colour seen against a white.
     *
     * @param colour X, Y, Z, cd/m2
     * @param white Xn, Yn, Zn, cd/m2, each greater than zero
     * @return L*, a*, b*
     * @throws IllegalArgumentException when the white holds a value that is not greater than zero
     */
    public static Lab of(XYZ colour, XYZ white) {
        double fx = f(colour.x() / Require.positive("white X in cd/m2", white.x()));
        double fy = f(colour.y() / Require.positive("white Y in cd/m2", white.y()));
        double fz = f(colour.z() / Require.positive("white Z in cd/m2", white.z()));
        return new Lab(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    /**
     * The colour back from CIELAB.
     *
     * @param white Xn, Yn, Zn, cd/m2: the one that {@link #of} was given
     * @return X, Y, Z, cd/m2
     */
    public XYZ toXYZ(XYZ white) {
        double fy = (lightness + 16) / 116;
        return new XYZ(
                white.x() * inverseF(fy + a / 500), white.y() * inverseF(fy), white.z() * inverseF(fy - b / 200));
    }

    private static double f(double ratio) {
        return ratio > DELTA * DELTA * DELTA ? Math.cbrt(ratio) : ratio / (3 * DELTA * DELTA) + 4.0 / 29;
    }

    private static double inverseF(double f) {
        return f > DELTA ? f * f * f : 3 * DELTA * DELTA * (f - 4.0 / 29);
    }
}
