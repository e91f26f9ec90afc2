package panelbook.colorimetry;

/**
 * The primaries and the white of an additive display.
 *
 * <p>Conditions: the primaries span a triangle that holds the white, so that the white is a mixture of all three.
 *
 * @param red chromaticity of the red primary
 * @param green chromaticity of the green primary
 * @param blue chromaticity of the blue primary
 * @param white chromaticity of equal signals
 */
public record RgbSpace(Chromaticity red, Chromaticity green, Chromaticity blue, Chromaticity white) {
    /** ITU-R BT.709-6 (2015), items 1.3 and 1.4. */
    public static final RgbSpace BT_709 = new RgbSpace(
            new Chromaticity(0.640, 0.330),
            new Chromaticity(0.300, 0.600),
            new Chromaticity(0.150, 0.060),
            Chromaticity.D65);

    /** ITU-R BT.2020-2 (2015), Table 3; the same in ITU-R BT.2100-2 (2018), Table 2. */
    public static final RgbSpace BT_2020 = new RgbSpace(
            new Chromaticity(0.708, 0.292),
            new Chromaticity(0.170, 0.797),
            new Chromaticity(0.131, 0.046),
            Chromaticity.D65);

    /** SMPTE ST 2113:2019 (P3D65), also SMPTE EG 432-1:2010: the cinema primaries with white D65. */
    public static final RgbSpace P3_D65 = new RgbSpace(
            new Chromaticity(0.680, 0.320),
            new Chromaticity(0.265, 0.690),
            new Chromaticity(0.150, 0.060),
            Chromaticity.D65);

    /** SMPTE RP 431-2:2011: the minimum gamut of the cinema reference projector with its own white. */
    public static final RgbSpace P3_DCI =
            new RgbSpace(P3_D65.red, P3_D65.green, P3_D65.blue, new Chromaticity(0.314, 0.351));

    public RgbSpace {
        mixture(red, green, blue, white);
    }

    /**
     * The normalised primary matrix: linear R, G, B to X, Y, Z, where R = G = B = 1 gives the white at Y = 1.
     *
     * @return the matrix; multiplied by channel light in cd/m2 it gives absolute XYZ in cd/m2. Computed on each call.
     *     Source: SMPTE RP 177:1993
     */
    public Matrix3 toXyz() {
        XYZ gains = mixture(red, green, blue, white);
        return Matrix3.ofColumns(
                XYZ.of(red, 1).times(red.y() * gains.x()),
                XYZ.of(green, 1).times(green.y() * gains.y()),
                XYZ.of(blue, 1).times(blue.y() * gains.z()));
    }

    private static XYZ mixture(Chromaticity red, Chromaticity green, Chromaticity blue, Chromaticity white) {
        Matrix3 primaries = Matrix3.ofColumns(unscaled(red), unscaled(green), unscaled(blue));
        if (Math.abs(primaries.determinant()) < 1e-9) {
            throw new IllegalArgumentException("the primaries lie on a line: red " + red + ", green " + green
                    + ", blue " + blue + "; check for a chromaticity entered twice");
        }
        XYZ w = XYZ.of(white, 1);
        XYZ gains = primaries.inverse().times(w.x(), w.y(), w.z());
        if (Math.min(gains.x(), Math.min(gains.y(), gains.z())) <= 0) {
            throw new IllegalArgumentException("the white " + white + " lies outside the triangle of the primaries red "
                    + red + ", green " + green + ", blue " + blue + "; check the order of the primaries' coordinates");
        }
        return gains;
    }

    private static XYZ unscaled(Chromaticity c) {
        return new XYZ(c.x(), Require.positive("primary y", c.y()), 1 - c.x() - c.y());
    }
}
