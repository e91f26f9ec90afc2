package panelbook.colorimetry;

/**
 * CIE 1976 uniform chromaticity scale. Range: finite. Source: ISO/CIE 11664-5:2016.
 *
 * @param u u', no unit
 * @param v v', no unit
 */
public record UV1976(double u, double v) {
    public UV1976 {
        Require.finite("chromaticity u'", u);
        Require.finite("chromaticity v'", v);
    }

    /**
     * CIE 1931: x = 9u' / (6u' - 16v' + 12), y = 4v' / (6u' - 16v' + 12).
     *
     * @return x, y
     * @throws IllegalArgumentException when 6u' - 16v' + 12 = 0, which no real colour meets
     */
    public Chromaticity toChromaticity() {
        double d = 6 * u - 16 * v + 12;
        return new Chromaticity(9 * u / d, 4 * v / d);
    }

    /**
     * CIE 1960: u = u', v = 2/3 v'.
     *
     * @return u, v
     */
    public UV1960 toUV1960() {
        return new UV1960(u, v * 2 / 3);
    }
}
