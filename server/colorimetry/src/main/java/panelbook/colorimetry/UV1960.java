package panelbook.colorimetry;

/**
 * CIE 1960 uniform chromaticity scale, kept in use for correlated colour temperature. Range: finite. Source: CIE
 * 015:2018.
 *
 * @param u u, no unit
 * @param v v, no unit
 */
public record UV1960(double u, double v) {
    public UV1960 {
        Require.finite("chromaticity u", u);
        Require.finite("chromaticity v", v);
    }

    /**
     * CIE 1976: u' = u, v' = 3/2 v.
     *
     * @return u', v'
     */
    public UV1976 toUV1976() {
        return new UV1976(u, v * 3 / 2);
    }
}
