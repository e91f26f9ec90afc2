package panelbook.colorimetry.control;

import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import panelbook.colorimetry.Require;

/**
 * Figures of one display in order, with the meters that they were taken with. One figure a run, such as the logarithm of
 * luminance, or two that belong together, such as u' and v'.
 */
public final class Track {
    private final double[] over;
    private final double[][] figures;
    private final int[] meters;
    private final double[] leastScatter;

    private Track(double[] over, double[][] figures, int[] meters, double[] leastScatter) {
        this.over = over;
        this.figures = figures;
        this.meters = meters;
        this.leastScatter = leastScatter;
    }

    /**
     * A track.
     *
     * @param over what ageing goes by, panel hours or else hours of the clock, never falling
     * @param figures for each kind of figure as many as there are hours, any unit, kinds independent of each other
     * @param meters for each run the key of its meter's systematic error
     * @param leastScatter for each kind the least standard deviation that one figure can have, such as the meter's
     *     repeatability; not negative
     * @return the track
     * @throws IllegalArgumentException when the lists differ in length, or something is not finite
     */
    public static Track of(double[] over, double[][] figures, List<String> meters, double[] leastScatter) {
        for (double[] kind : figures) {
            if (kind.length != over.length) {
                throw new IllegalArgumentException("each figure needs its panel hours, but there are " + kind.length
                        + " figures and " + over.length + " panel hours");
            }
        }
        if (meters.size() != over.length || figures.length != leastScatter.length || figures.length == 0) {
            throw new IllegalArgumentException("a track of " + over.length + " runs and " + figures.length
                    + " kinds of figures has " + meters.size() + " meters and " + leastScatter.length + " scatters");
        }
        List<String> kinds = meters.stream().distinct().toList();
        double[][] copy = new double[figures.length][];
        double[] least = leastScatter.clone();
        for (int f = 0; f < copy.length; f++) {
            copy[f] = figures[f].clone();
            Require.notNegative("least scatter", least[f]);
        }
        for (int i = 0; i < over.length; i++) {
            Require.finite("panel hours", over[i]);
            for (double[] kind : copy) {
                Require.finite("figure", kind[i]);
            }
        }
        return new Track(
                over.clone(), copy, meters.stream().mapToInt(kinds::indexOf).toArray(), least);
    }

    /**
     * How many runs.
     *
     * @return 0 or more
     */
    public int size() {
        return over.length;
    }

    /**
     * The runs taken with some of the meters.
     *
     * @param kept which runs, by index
     * @return a track of these, in their order
     */
    public Track only(IntPredicate kept) {
        int[] places = IntStream.range(0, size()).filter(kept).toArray();
        double[][] cut = new double[kinds()][];
        for (int f = 0; f < cut.length; f++) {
            int kind = f;
            cut[f] = IntStream.of(places).mapToDouble(i -> figures[kind][i]).toArray();
        }
        return new Track(
                IntStream.of(places).mapToDouble(i -> over[i]).toArray(),
                cut,
                IntStream.of(places).map(i -> meters[i]).toArray(),
                leastScatter.clone());
    }

    int kinds() {
        return figures.length;
    }

    double over(int i) {
        return over[i];
    }

    double figure(int kind, int i) {
        return figures[kind][i];
    }

    int meter(int i) {
        return meters[i];
    }

    double leastScatter(int kind) {
        return leastScatter[kind];
    }
}
