package panelbook.colorimetry.forecast;

import java.util.Arrays;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * The stretched exponential L / L0 = exp(-(t / tau)^beta), fitted to log luminance, t being panel hours as the counter shows
 * them. Source: Fery et al., Appl. Phys. Lett. 87 (2005) 213502. Its band is the profile of the weighted squares: at each
 * hour all levels through which some curve passes that is not significantly worse than the best.
 */
public final class CurveTrend implements Trend {
    /** Fewer readings do not tell a curve from a line; house rule. */
    static final int LEAST_READINGS = 8;

    private static final double LEAST_BETA = 0.2;
    private static final double MOST_BETA = 2;
    private static final int BETAS = 91;

    /** Of normal noise, the mean of weighted squares over the mean weight, for the biweight at 4.685; computed. */
    private static final double WEIGHTED_VARIANCE = 0.828;

    /** What a luminance is good for at best, in ln: keeps readings rounded to the curve from weights of nothing. */
    private static final double NOISE_FLOOR = 1e-6;

    private final CurveFit fit;
    private final double unitHours;
    private final Straight[] straights;
    private final double ceiling;

    private CurveTrend(CurveFit fit, double unitHours, Straight[] straights) {
        this.fit = fit;
        this.unitHours = unitHours;
        this.straights = straights;
        double least = fit.weightedSquares();
        for (Straight s : straights) {
            least = Math.min(least, s.squares);
        }
        double weight = Arrays.stream(fit.weights()).sum();
        double variance = least / (WEIGHTED_VARIANCE * (weight - 3));
        double q = new TDistribution(weight - 3).inverseCumulativeProbability(CONFIDENCE);
        this.ceiling = least + q * q * variance;
    }

    /**
     * The curve, where there are readings enough and it explains them better than a line, by Akaike's criterion corrected
     * for few readings. Source: Hurvich and Tsai, Biometrika 76 (1989) 297. Both are weighed with the same weights.
     */
    static Optional<CurveTrend> betterThanLine(double[] hours, double[] logLuminances) {
        double unit = Arrays.stream(hours).max().orElse(0);
        if (hours.length < LEAST_READINGS || unit <= 0) {
            return Optional.empty();
        }
        double[] t = Arrays.stream(hours).map(h -> h / unit).toArray();
        CurveFit fit = CurveFit.robust(p -> values(p, t), start(t, logLuminances), logLuminances, NOISE_FLOOR);
        double weight = Arrays.stream(fit.weights()).sum();
        boolean ages = fit.parameters()[1] > 0 && fit.parameters()[2] >= LEAST_BETA && fit.parameters()[2] <= MOST_BETA;
        if (!ages || weight < LEAST_READINGS - 2) {
            return Optional.empty();
        }
        double line = aicc(weight, Straight.through(1, t, logLuminances, fit.weights()).squares, 3);
        double curve = aicc(weight, fit.weightedSquares(), 4);
        return curve < line
                ? Optional.of(new CurveTrend(fit, unit, profile(t, logLuminances, fit.weights())))
                : Optional.empty();
    }

    private static double[] values(double[] p, double[] t) {
        double[] values = new double[t.length];
        for (int i = 0; i < t.length; i++) {
            values[i] = p[0] - p[1] * Math.pow(t[i], p[2]);
        }
        return values;
    }

    /** The line: beta = 1. */
    private static double[] start(double[] t, double[] y) {
        TheilSen line = TheilSen.fit(t, y);
        return new double[] {line.intercept(), Math.max(-line.slope(), 1e-4), 1};
    }

    private static double aicc(double n, double squares, int k) {
        return n * Math.log(Math.max(squares, n * NOISE_FLOOR * NOISE_FLOOR) / n)
                + 2 * k
                + 2.0 * k * (k + 1) / (n - k - 1);
    }

    private static Straight[] profile(double[] t, double[] y, double[] weights) {
        Straight[] straights = new Straight[BETAS];
        for (int k = 0; k < BETAS; k++) {
            double beta = LEAST_BETA * Math.pow(MOST_BETA / LEAST_BETA, k / (BETAS - 1.0));
            straights[k] = Straight.through(beta, t, y, weights);
        }
        return straights;
    }

    /**
     * Luminance of the panel when new, by the curve.
     *
     * @return ln L0, L0 in the unit of the series
     */
    public double logInitial() {
        return fit.parameters()[0];
    }

    /**
     * Hours until 1/e is left.
     *
     * @return tau, h
     */
    public double tauHours() {
        return unitHours * Math.pow(fit.parameters()[1], -1 / beta());
    }

    /**
     * How the loss slows down.
     *
     * @return beta, no unit, 0.2 to 2; below 1 a panel ages fastest when new
     */
    public double beta() {
        return fit.parameters()[2];
    }

    @Override
    public int readings() {
        return fit.weights().length;
    }

    @Override
    public double at(double panelHours) {
        return values(fit.parameters(), new double[] {panelHours / unitHours})[0];
    }

    @Override
    public double low(double panelHours) {
        double low = at(panelHours);
        for (Straight s : straights) {
            low = Math.min(low, s.at(panelHours / unitHours) - s.reach(panelHours / unitHours, ceiling));
        }
        return low;
    }

    @Override
    public double high(double panelHours) {
        double high = at(panelHours);
        for (Straight s : straights) {
            high = Math.max(high, s.at(panelHours / unitHours) + s.reach(panelHours / unitHours, ceiling));
        }
        return high;
    }

    /** For one beta the curve is a line over t^beta, and its weighted squares are known in full. */
    private record Straight(
            double beta, double meanX, double meanY, double slope, double weight, double spread, double squares) {
        static Straight through(double beta, double[] t, double[] y, double[] weights) {
            double weight = 0;
            double meanX = 0;
            double meanY = 0;
            double[] x = new double[t.length];
            for (int i = 0; i < t.length; i++) {
                x[i] = Math.pow(t[i], beta);
                weight += weights[i];
                meanX += weights[i] * x[i];
                meanY += weights[i] * y[i];
            }
            meanX /= weight;
            meanY /= weight;
            double spread = 0;
            double mixed = 0;
            for (int i = 0; i < t.length; i++) {
                spread += weights[i] * (x[i] - meanX) * (x[i] - meanX);
                mixed += weights[i] * (x[i] - meanX) * (y[i] - meanY);
            }
            double slope = mixed / spread;
            double squares = 0;
            for (int i = 0; i < t.length; i++) {
                double residual = y[i] - meanY - slope * (x[i] - meanX);
                squares += weights[i] * residual * residual;
            }
            return new Straight(beta, meanX, meanY, slope, weight, spread, squares);
        }

        double at(double t) {
            return meanY + slope * (Math.pow(t, beta) - meanX);
        }

        /** How far a curve of this beta may pass from its best before its squares exceed the ceiling; the best if they do. */
        double reach(double t, double ceiling) {
            if (squares > ceiling) {
                return Double.NEGATIVE_INFINITY;
            }
            double off = Math.pow(t, beta) - meanX;
            return Math.sqrt((ceiling - squares) * (1 / weight + off * off / spread));
        }
    }
}
