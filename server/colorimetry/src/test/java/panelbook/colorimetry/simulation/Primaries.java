package panelbook.colorimetry.simulation;

import java.util.List;
import panelbook.colorimetry.Cie1931Observer;
import panelbook.colorimetry.PublishedTable;
import panelbook.colorimetry.XYZ;

/**
 * The light of a display's three primaries by spectrum, each scaled to 1 cd/m2.
 *
 * @param technology what a person calls the kind of panel
 * @param red X, Y, Z at Y = 1
 * @param green X, Y, Z at Y = 1
 * @param blue X, Y, Z at Y = 1
 */
public record Primaries(String technology, XYZ red, XYZ green, XYZ blue) {
    private static final int FIRST_NM = 380;
    private static final int LAST_NM = 780;

    /**
     * Measured cathode-ray tube.
     *
     * @return primaries after Brainard 1997, as tabulated in Machado 2010
     */
    public static Primaries crt() {
        return measured("crt", "display_spd_crt_brainard1997.csv");
    }

    /**
     * Measured liquid-crystal panel with fluorescent backlight.
     *
     * @return primaries after Fairchild and Wyble 1998, as tabulated in Machado 2010
     */
    public static Primaries lcd() {
        return measured("lcd", "display_spd_lcd_fairchild1998.csv");
    }

    /**
     * Emissive panel: three bands of some 30 nm. Invented, with peaks where such emitters lie (common practice, no
     * published source).
     *
     * @return primaries close to P3
     */
    public static Primaries emissive() {
        return new Primaries("emissive", band(626, 34), band(529, 30), band(460, 22));
    }

    /**
     * Laser-like projector: three bands of 2 nm at wavelengths near the primaries of BT.2020 (630, 532 and 467 nm, ITU-R
     * BT.2246).
     *
     * @return primaries close to BT.2020
     */
    public static Primaries laser() {
        return new Primaries("laser", band(638, 2), band(532, 2), band(465, 2));
    }

    /**
     * All of them.
     *
     * @return one of each technology
     */
    public static List<Primaries> all() {
        return List.of(crt(), lcd(), emissive(), laser());
    }

    private static Primaries measured(String technology, String table) {
        return new Primaries(
                technology,
                unit(5, PublishedTable.column(table, "red")),
                unit(5, PublishedTable.column(table, "green")),
                unit(5, PublishedTable.column(table, "blue")));
    }

    private static XYZ band(double peakNm, double fullWidthAtHalfMaximumNm) {
        double sigma = fullWidthAtHalfMaximumNm / (2 * Math.sqrt(2 * Math.log(2)));
        double[] spectrum = new double[LAST_NM - FIRST_NM + 1];
        for (int i = 0; i < spectrum.length; i++) {
            double away = (FIRST_NM + i - peakNm) / sigma;
            spectrum[i] = Math.exp(-away * away / 2);
        }
        return unit(1, spectrum);
    }

    private static XYZ unit(int stepNm, double[] spectrum) {
        XYZ xyz = Cie1931Observer.tristimulus(FIRST_NM, stepNm, spectrum);
        return xyz.times(1 / xyz.y());
    }
}
