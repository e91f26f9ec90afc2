package panelbook.colorimetry.forecast;

import java.util.Arrays;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * The line whose slope is the median of the slopes between all points: up to 29 % of the points may be wrong by any amount.
 * Source: Theil (1950); Sen, J. Amer. Statist. Assoc. 63 (1968) 1379-1389.
 */
public final class TheilSen {
    private final double[] slopes;
    private final Kendall kendall;
    private final double intercept;

    private TheilSen(double[] slopes, Kendall kendall, double medianX, double medianY) {
        this.slopes = slopes;
        this.kendall = kendall;
        this.intercept = medianY - medianOfSorted(slopes) * medianX;
    }

    /**
     * Fits a line.
     *
     * @param x where, any unit; equal values are allowed, all equal are not
     * @param y what was found there, any unit, as many as x
     * @return the line
     * @throws IllegalArgumentException when there are fewer than two different x, or x and y differ in number
     */
    public static TheilSen fit(double[] x, double[] y) {
        Kendall kendall = Kendall.of(x, y);
        double[] slopes = slopes(x, y);
        if (slopes.length == 0) {
            throw new IllegalArgumentException("a line needs points at two different places, but all lie at " + x[0]);
        }
        return new TheilSen(slopes, kendall, median(x), median(y));
    }

    private static double[] slopes(double[] x, double[] y) {
        double[] slopes = new double[x.length * (x.length - 1) / 2];
        int count = 0;
        for (int i = 0; i < x.length; i++) {
            for (int j = i + 1; j < x.length; j++) {
                if (x[i] != x[j]) {
                    slopes[count++] = (y[j] - y[i]) / (x[j] - x[i]);
                }
            }
        }
        slopes = Arrays.copyOf(slopes, count);
        Arrays.sort(slopes);
        return slopes;
    }

    /**
     * Slope of the line.
     *
     * @return unit of y over unit of x
     */
    public double slope() {
        return medianOfSorted(slopes);
    }

    /**
     * Where the line stands at x = 0.
     *
     * @return median of y less slope times median of x, unit of y
     */
    public double intercept() {
        return intercept;
    }

    /**
     * The rank correlation of x and y.
     *
     * @return Kendall's S, tau and their significance
     */
    public Kendall kendall() {
        return kendall;
    }

    /**
     * An interval of slopes.
     *
     * @param low lower end, unit of y over unit of x
     * @param high upper end
     */
    public record Interval(double low, double high) {}

    /**
     * Sen's two-sided interval of the slope.
     *
     * @param level chance that it holds the true slope, between 0 and 1
     * @return order statistics of the slopes, by the normal distribution of Kendall's S. Source: Sen 1968, (2.6): only ties
     *     in x or in y alone are taken from the variance
     * @throws IllegalArgumentException when the level is not between 0 and 1
     */
    public Interval slopeInterval(double level) {
        double reach = Normal.quantile((1 + level) / 2) * Math.sqrt(kendall.variance());
        int high = Math.min((int) Math.rint((slopes.length + reach) / 2), slopes.length - 1);
        int low = Math.max((int) Math.rint((slopes.length - reach) / 2) - 1, 0);
        return new Interval(slopes[low], slopes[high]);
    }

    /**
     * A slope that the true one lies above, by the exact distribution of Kendall's S, between two order statistics where
     * none has the very chance asked for.
     *
     * @param confidence chance that it does, one-sided
     * @return unit of y over unit of x; the least slope of all when the points are too few for the chance
     */
    double lowerBound(double confidence) {
        return Ranks.quantile(slopes, Kendall.cumulativeInversions(kendall.n(), kendall.variance()), 1 - confidence);
    }

    /** A slope that the true one lies below; see {@link #lowerBound}. */
    double upperBound(double confidence) {
        double[] turned = new double[slopes.length];
        for (int i = 0; i < turned.length; i++) {
            turned[i] = -slopes[turned.length - 1 - i];
        }
        return -Ranks.quantile(turned, Kendall.cumulativeInversions(kendall.n(), kendall.variance()), 1 - confidence);
    }

    static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return medianOfSorted(sorted);
    }

    private static double medianOfSorted(double[] sorted) {
        int n = sorted.length;
        return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
    }
}
