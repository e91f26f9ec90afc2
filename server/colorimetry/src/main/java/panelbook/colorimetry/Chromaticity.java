package panelbook.colorimetry;

/**
 * CIE 1931 chromaticity coordinates. Range: finite. Source: CIE 015:2018.
 *
 * @param x x = X / (X + Y + Z), no unit
 * @param y y = Y / (X + Y + Z), no unit
 */
public record Chromaticity(double x, double y) {
    /** CIE illuminant D65 as the television standards print it: ITU-R BT.709-6 item 1.4, BT.2020-2 Table 3. */
    public static final Chromaticity D65 = new Chromaticity(0.3127, 0.3290);

    public Chromaticity {
        Require.finite("chromaticity x", x);
        Require.finite("chromaticity y", y);
    }

    /**
     * CIE 1976 UCS: u' = 4x / (-2x + 12y + 3), v' = 9y / (-2x + 12y + 3).
     *
     * @return u', v'
     * @throws IllegalArgumentException when -2x + 12y + 3 = 0, which no real colour meets
     */
    public UV1976 toUV1976() {
        double d = -2 * x + 12 * y + 3;
        return new UV1976(4 * x / d, 9 * y / d);
    }

    /**
     * CIE 1960 UCS: u = 4x / (-2x + 12y + 3), v = 6y / (-2x + 12y + 3).
     *
     * @return u, v
     * @throws IllegalArgumentException when -2x + 12y + 3 = 0, which no real colour meets
     */
    public UV1960 toUV1960() {
        return toUV1976().toUV1960();
    }
}
