package panelbook.colorimetry.control;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.hipparchus.distribution.continuous.TDistribution;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * Tells a step from slow ageing, with nothing known beforehand but that ageing is nearly straight over the panel hours.
 *
 * <p>Each figure is compared with the line through those before it. Scaled by their scatter, these recursive residuals are
 * independent and, by way of Student's distribution, standard normal as long as nothing steps; they go to an
 * {@link EwmaChart}. Sources: Brown, Durbin and Evans, J. Roy. Statist. Soc. B 37 (1975) 149, for recursive residuals;
 * Hawkins, The Statistician 36 (1987) 299, for charts that start themselves.
 *
 * <p>A residual counts for 3.5 at most, and one beyond that does not teach the line: so a single wild reading in control
 * raises no alarm of its own, and a large step is told from it by the second or third run after. What teaches the line after a step hides
 * it: of steps after 24 runs by 3, 4 and 6 standard deviations 56, 84 and 98 % were told within 12 runs (our simulation).
 */
public final class StepWatch {
    /** Share of the newest residual: good for steps of one to two standard deviations. House rule. */
    public static final double LAMBDA = 0.2;

    /** Limits of one false alarm in some 2,000 runs ({@link RunLength}), a display checked weekly for 38 years. House rule. */
    public static final double WIDTH = 3.39;

    /** A line and its scatter take so many before the first residual. */
    public static final int LEARNING = 6;

    private static final double MOST = 3.5;
    private static final EwmaChart CHART = new EwmaChart(0, 1, LAMBDA, WIDTH);

    private StepWatch() {}

    /**
     * A step.
     *
     * @param lastBefore index of the last figure before it
     * @param firstAfter index of the first figure after it: it happened between these two
     * @param signalled index of the figure that raised the signal
     * @param size what the figures moved by, in their unit, ageing apart
     */
    public record Step(int lastBefore, int firstAfter, int signalled, double size) {}

    /**
     * Watches a series.
     *
     * @param panelHours h, in order of time; of one segment: a new baseline is a step that somebody wanted
     * @param figures as many, any unit; luminance as its logarithm
     * @return the first step; empty when there is none to be told, or fewer than eight figures. Its place is the one that
     *     leaves the least squares of a line with one step, up to the signal
     * @throws IllegalArgumentException when the two differ in number
     */
    public static Optional<Step> firstStep(double[] panelHours, double[] figures) {
        if (panelHours.length != figures.length) {
            throw new IllegalArgumentException("each figure needs its panel hours, but there are " + figures.length
                    + " figures and " + panelHours.length + " panel hours");
        }
        OptionalInt signal = CHART.signal(residuals(panelHours, figures));
        return signal.isEmpty() ? Optional.empty() : Optional.of(placed(panelHours, figures, signal.getAsInt()));
    }

    /** Standard normal in control; 0 for those that only teach. */
    static double[] residuals(double[] hours, double[] figures) {
        double[] residuals = new double[figures.length];
        List<Integer> taught = new ArrayList<>();
        for (int i = 0; i < figures.length; i++) {
            double residual = taught.size() < LEARNING ? 0 : residual(taught, hours, figures, i);
            residuals[i] = Math.max(-MOST, Math.min(MOST, residual));
            if (Math.abs(residual) < MOST) {
                taught.add(i);
            }
        }
        return residuals;
    }

    private static double residual(List<Integer> taught, double[] hours, double[] figures, int i) {
        double[] x = taught.stream().mapToDouble(k -> hours[k]).toArray();
        double[] y = taught.stream().mapToDouble(k -> figures[k]).toArray();
        int n = x.length;
        double meanX = Arrays.stream(x).average().orElseThrow();
        double meanY = Arrays.stream(y).average().orElseThrow();
        double spread = dot(x, meanX, x, meanX);
        if (spread <= 0) {
            return 0;
        }
        double slope = dot(x, meanX, y, meanY) / spread;
        double squares = Math.max(dot(y, meanY, y, meanY) - slope * slope * spread, 0);
        double off = hours[i] - meanX;
        double error = figures[i] - meanY - slope * off;
        double scatter = Math.sqrt(squares / (n - 2) * (1 + 1.0 / n + off * off / spread));
        // figures of next to no scatter: rounding must not look like a step
        double t = error / Math.max(scatter, 1e-9 * (1 + Math.abs(meanY)));
        double tail = new TDistribution(n - 2).cumulativeProbability(-Math.abs(t));
        return tail < 1e-12 ? Math.copySign(7, t) : Math.copySign(Normal.quantile(tail), t);
    }

    private static double dot(double[] a, double meanA, double[] b, double meanB) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += (a[i] - meanA) * (b[i] - meanB);
        }
        return sum;
    }

    private static Step placed(double[] hours, double[] figures, int signalled) {
        double[] y = withoutLine(hours, Arrays.copyOf(figures, signalled + 1));
        Step best = new Step(signalled - 1, signalled, signalled, 0);
        double most = -1;
        for (int first = 2; first <= signalled; first++) {
            double[] after = new double[signalled + 1];
            Arrays.fill(after, first, after.length, 1);
            double[] d = withoutLine(hours, after);
            double own = dot(d, 0, d, 0);
            double size = own > 1e-9 ? dot(d, 0, y, 0) / own : 0;
            if (size * size * own > most) {
                most = size * size * own;
                best = new Step(first - 1, first, signalled, size);
            }
        }
        return best;
    }

    /** What a least-squares line over the hours leaves. */
    private static double[] withoutLine(double[] hours, double[] values) {
        double[] x = Arrays.copyOf(hours, values.length);
        double meanX = Arrays.stream(x).average().orElseThrow();
        double meanY = Arrays.stream(values).average().orElseThrow();
        double spread = dot(x, meanX, x, meanX);
        double slope = spread > 0 ? dot(x, meanX, values, meanY) / spread : 0;
        double[] rest = new double[values.length];
        for (int i = 0; i < rest.length; i++) {
            rest[i] = values[i] - meanY - slope * (x[i] - meanX);
        }
        return rest;
    }
}
