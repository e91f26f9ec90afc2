package panelbook.colorimetry.uncertainty;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.Lab;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;

/**
 * The uncertainty of any figure worked out from readings: each reading's luminance, u' and v' is moved by its own
 * uncertainty, and the changes of the figure are added in squares.
 *
 * <p>Random parts move one reading at a time, systematic parts all readings of a source together. Source: JCGM 100:2008,
 * 5.1.3 note 2 (changes by one standard uncertainty in place of derivatives) and F.1.2.
 *
 * <p>A distance (delta u'v', delta E) has no derivative at zero: the usual formula, taken over both sides, gives an
 * uncertainty of zero for two equal colours, which is wrong (JCGM 101:2008, 9.4, shows it on a sum of two squares). So of
 * the two changes, up and down, the greater counts. Far from zero that is the usual formula; at zero it is the root of
 * the summed variances of all components, which is the root mean square of the distance that noise alone makes. In
 * between it is never below the usual formula, so a decision errs towards measuring again; against a Monte Carlo draw
 * (JCGM 101:2008) it is at most an eighth too small, at distances of one to two uncertainties.
 */
public final class Propagation {
    private Propagation() {}

    /**
     * Uncertainty of a figure of several readings.
     *
     * @param readings the arguments of the figure
     * @param figure the function; given colours in the order of {@code readings}, in an array that it must not keep
     * @return the figure with its standard uncertainty, in the figure's unit. Conditions: uncertainties small enough that
     *     one of them does not bend the figure much
     */
    public static Estimate of(List<Measured> readings, ToDoubleFunction<XYZ[]> figure) {
        XYZ[] colours = readings.stream().map(Measured::xyz).toArray(XYZ[]::new);
        double value = figure.applyAsDouble(colours);
        double variance = 0;
        for (int i = 0; i < colours.length; i++) {
            InstrumentUncertainty u = readings.get(i).uncertainty();
            double luminance = u.randomLuminance(colours[i].y());
            double chromaticity = u.chromaticityRepeatability();
            int only = i;
            variance += change(figure, colours, value, (c, j, sign) -> j == only ? brighter(c, sign * luminance) : c);
            variance +=
                    change(figure, colours, value, (c, j, sign) -> j == only ? moved(c, sign * chromaticity, 0) : c);
            variance +=
                    change(figure, colours, value, (c, j, sign) -> j == only ? moved(c, 0, sign * chromaticity) : c);
        }
        for (double[][] shared : bySource(readings).values()) {
            variance += change(figure, colours, value, (c, j, sign) -> brighter(c, sign * shared[0][j] * c.y()));
            variance += change(figure, colours, value, (c, j, sign) -> moved(c, sign * shared[1][j], 0));
            variance += change(figure, colours, value, (c, j, sign) -> moved(c, 0, sign * shared[1][j]));
        }
        return new Estimate(value, Math.sqrt(variance));
    }

    /**
     * Delta E ITP of two readings.
     *
     * @param a one reading
     * @param b the other
     * @return delta E ITP with its uncertainty
     */
    public static Estimate itp(Measured a, Measured b) {
        return of(List.of(a, b), c -> ColourDifference.itp(c[0], c[1]));
    }

    /**
     * CIEDE2000 of two readings.
     *
     * @param a one reading
     * @param b the other
     * @param white X, Y, Z of the white of both, cd/m2, taken as exact
     * @return delta E 00 with its uncertainty
     */
    public static Estimate ciede2000(Measured a, Measured b, XYZ white) {
        return of(List.of(a, b), c -> ColourDifference.ciede2000(Lab.of(c[0], white), Lab.of(c[1], white)));
    }

    /**
     * Delta u'v' of two readings.
     *
     * @param a one reading, with light enough to have a chromaticity
     * @param b the other, likewise
     * @return delta u'v' with its uncertainty
     * @throws java.util.NoSuchElementException when one of them has no chromaticity
     */
    public static Estimate uv1976(Measured a, Measured b) {
        return of(
                List.of(a, b),
                c -> ColourDifference.uv1976(
                        c[0].uv1976().orElseThrow(), c[1].uv1976().orElseThrow()));
    }

    private interface Shift {
        XYZ apply(XYZ colour, int index, int sign);
    }

    private static double change(ToDoubleFunction<XYZ[]> figure, XYZ[] colours, double value, Shift shift) {
        double up = figure.applyAsDouble(shifted(colours, shift, 1)) - value;
        double down = figure.applyAsDouble(shifted(colours, shift, -1)) - value;
        return Math.max(up * up, down * down);
    }

    private static XYZ[] shifted(XYZ[] colours, Shift shift, int sign) {
        XYZ[] result = new XYZ[colours.length];
        for (int i = 0; i < colours.length; i++) {
            result[i] = shift.apply(colours[i], i, sign);
        }
        return result;
    }

    /** Systematic luminance (relative) and chromaticity of each reading by source; zero where the source is another. */
    private static Map<String, double[][]> bySource(List<Measured> readings) {
        Map<String, double[][]> shared = new LinkedHashMap<>();
        for (int i = 0; i < readings.size(); i++) {
            InstrumentUncertainty u = readings.get(i).uncertainty();
            double[][] parts = shared.computeIfAbsent(u.source(), k -> new double[2][readings.size()]);
            parts[0][i] = u.systematicLuminance();
            parts[1][i] = u.systematicChromaticity();
        }
        return shared;
    }

    /** Never below zero light; what has none gets the neutral colour of equal X, Y and Z, as it has no other. */
    private static XYZ brighter(XYZ c, double by) {
        double luminance = Math.max(c.y() + by, 0);
        if (!c.hasChromaticity()) {
            return new XYZ(luminance, luminance, luminance);
        }
        // a dark reading that noise would put out keeps a trace of light, since its figure may need a chromaticity
        return c.times(Math.max(luminance / c.y(), 1e-6));
    }

    private static XYZ moved(XYZ c, double byU, double byV) {
        if (!c.hasChromaticity()) {
            return c;
        }
        UV1976 uv = c.uv1976().orElseThrow();
        // v' of any light is above zero, and stays so however uncertain it is
        return XYZ.of(new UV1976(uv.u() + byU, Math.max(uv.v() + byV, 1e-6)), c.y());
    }
}
