package panelbook.colorimetry.simulation;

import java.util.List;
import panelbook.colorimetry.Cie1931Observer;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.PublishedTable;
import panelbook.colorimetry.XYZ;

/** The spectra of a display's three primaries. */
public final class Primaries {
    private static final int FIRST_NM = 380;
    private static final int LAST_NM = 780;

    private final String technology;
    private final int stepNm;
    private final double[][] spectra;

    private Primaries(String technology, int stepNm, double[]... spectra) {
        this.technology = technology;
        this.stepNm = stepNm;
        this.spectra = spectra;
    }

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
        return new Primaries("emissive", 1, band(626, 34), band(529, 30), band(460, 22));
    }

    /**
     * Liquid-crystal panel whose blue backlight is turned into narrow green and red by quantum dots. Invented, with peaks
     * where such films lie (common practice, no published source).
     *
     * @return primaries close to P3
     */
    public static Primaries quantumDotLcd() {
        return new Primaries("quantum-dot lcd", 1, band(632, 26), band(531, 34), band(457, 18));
    }

    /**
     * Liquid-crystal panel whose blue backlight is turned into green and a red of narrow lines by phosphors. Invented, with
     * peaks where such phosphors lie (common practice, no published source).
     *
     * @return primaries close to P3
     */
    public static Primaries phosphorLcd() {
        double[] lines = sum(band(613, 5), 0.20, sum(band(631, 5), 0.65, band(635, 5), 0.15), 1);
        return new Primaries("phosphor lcd", 1, lines, band(536, 46), band(458, 20));
    }

    /**
     * Laser-like projector: three bands of 2 nm near the wavelengths of the primaries of BT.2020 (630, 532 and 467 nm,
     * ITU-R BT.2246, from memory).
     *
     * @return primaries close to BT.2020
     */
    public static Primaries laser() {
        return new Primaries("laser", 1, band(638, 2), band(532, 2), band(465, 2));
    }

    /**
     * All of them.
     *
     * @return one of each technology
     */
    public static List<Primaries> all() {
        return List.of(crt(), lcd(), emissive(), quantumDotLcd(), phosphorLcd(), laser());
    }

    /**
     * The kind of panel.
     *
     * @return in one word
     */
    public String technology() {
        return technology;
    }

    /**
     * What an instrument sees of the primaries.
     *
     * @param filterShiftNm how far its filters lie from the colour-matching functions, nm; 0 sees the truth
     * @return columns red, green, blue: X, Y, Z of each primary at a true luminance of 1 cd/m2
     */
    public Matrix3 seen(double filterShiftNm) {
        return Matrix3.ofColumns(
                seen(spectra[0], filterShiftNm), seen(spectra[1], filterShiftNm), seen(spectra[2], filterShiftNm));
    }

    private XYZ seen(double[] spectrum, double filterShiftNm) {
        // filters moved to longer waves see what true ones would of a spectrum moved to shorter ones
        int whole = (int) Math.floor(filterShiftNm);
        double rest = filterShiftNm - whole;
        XYZ nearer = Cie1931Observer.tristimulus(FIRST_NM - whole, stepNm, spectrum);
        XYZ farther = Cie1931Observer.tristimulus(FIRST_NM - whole - 1, stepNm, spectrum);
        double truth = Cie1931Observer.tristimulus(FIRST_NM, stepNm, spectrum).y();
        return nearer.times((1 - rest) / truth).plus(farther.times(rest / truth));
    }

    private static Primaries measured(String technology, String table) {
        return new Primaries(
                technology,
                5,
                PublishedTable.column(table, "red"),
                PublishedTable.column(table, "green"),
                PublishedTable.column(table, "blue"));
    }

    private static double[] sum(double[] one, double ofOne, double[] other, double ofOther) {
        double[] sum = new double[one.length];
        for (int i = 0; i < sum.length; i++) {
            sum[i] = ofOne * one[i] + ofOther * other[i];
        }
        return sum;
    }

    private static double[] band(double peakNm, double fullWidthAtHalfMaximumNm) {
        double sigma = fullWidthAtHalfMaximumNm / (2 * Math.sqrt(2 * Math.log(2)));
        double[] spectrum = new double[LAST_NM - FIRST_NM + 1];
        for (int i = 0; i < spectrum.length; i++) {
            double away = (FIRST_NM + i - peakNm) / sigma;
            spectrum[i] = Math.exp(-away * away / 2);
        }
        return spectrum;
    }
}
