package panelbook.colorimetry.forecast;

import java.util.Arrays;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * Kendall's rank correlation of two figures of the same things.
 *
 * @param n how many pairs of values
 * @param s pairs of pairs that agree in order less those that disagree
 * @param tauB S over the geometric mean of the pairs untied in x and untied in y, -1 to 1; NaN when one of the two never
 *     changes
 * @param variance of S where x and y have nothing to do with each other, ties taken into account
 * @param ties whether there are any
 */
public record Kendall(int n, long s, double tauB, double variance, boolean ties) {
    /** Up to here the distribution is worked out in full; beyond, the normal one is as good. */
    private static final int MOST_EXACT = 33;

    /**
     * Ranks two figures against each other.
     *
     * @param x first figure, any unit
     * @param y second figure, any unit, as many as x
     * @return the correlation. Source: Kendall, Rank Correlation Methods (1970), chapters 3 to 5; the variance with ties is
     *     his (4.3)
     * @throws IllegalArgumentException when there are fewer than two, or x and y differ in number
     */
    public static Kendall of(double[] x, double[] y) {
        int n = x.length;
        if (n < 2 || y.length != n) {
            throw new IllegalArgumentException(
                    "a rank correlation needs two or more values of x and as many of y, but got " + n + " and "
                            + y.length);
        }
        long s = 0;
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                s += (long) (Math.signum(x[j] - x[i]) * Math.signum(y[j] - y[i]));
            }
        }
        Ties tx = Ties.of(x);
        Ties ty = Ties.of(y);
        double pairs = n * (n - 1) / 2.0;
        double tau = s / Math.sqrt((pairs - tx.pairs) * (pairs - ty.pairs));
        double variance = (n * (n - 1.0) * (2 * n + 5) - tx.weighted - ty.weighted) / 18
                + 2 * tx.pairs * ty.pairs / (n * (n - 1.0))
                + (n > 2 ? tx.triples * ty.triples / (9.0 * n * (n - 1.0) * (n - 2.0)) : 0);
        return new Kendall(n, s, tau, variance, tx.pairs + ty.pairs > 0);
    }

    /** S in its standard deviations; 0 when nothing changes. */
    double z() {
        return variance > 0 ? s / Math.sqrt(variance) : 0;
    }

    /**
     * How often chance alone gives a correlation at least as strong, either way.
     *
     * @return two-sided p, 0 to 1: from the exact distribution without ties up to 33 values, else normal without a
     *     correction for continuity
     */
    public double pValue() {
        if (ties || n > MOST_EXACT) {
            return 2 * Normal.probabilityBelow(-Math.abs(z()));
        }
        long pairs = n * (n - 1L) / 2;
        int inversions = (int) ((pairs - Math.abs(s)) / 2);
        return Math.min(1, 2 * below(inversionChances(n), inversions));
    }

    /**
     * Chance of at most k pairs out of order, k = 0, 1, ...; of slopes that lie below the true one there are as many.
     *
     * @param variance of S, for the normal distribution beyond 33
     */
    static double[] cumulativeInversions(int n, double variance) {
        if (n <= MOST_EXACT) {
            double[] cumulative = inversionChances(n);
            for (int k = 1; k < cumulative.length; k++) {
                cumulative[k] += cumulative[k - 1];
            }
            return cumulative;
        }
        int pairs = n * (n - 1) / 2;
        double[] cumulative = new double[pairs + 1];
        for (int k = 0; k <= pairs; k++) {
            cumulative[k] = Normal.probabilityBelow((2 * k + 1 - pairs) / Math.sqrt(variance));
        }
        return cumulative;
    }

    /** Each further value lies with equal chance behind 0, 1, ... of those before it. */
    private static double[] inversionChances(int n) {
        double[] chances = {1};
        for (int m = 2; m <= n; m++) {
            double[] next = new double[chances.length + m - 1];
            for (int k = 0; k < chances.length; k++) {
                for (int more = 0; more < m; more++) {
                    next[k + more] += chances[k] / m;
                }
            }
            chances = next;
        }
        return chances;
    }

    private static double below(double[] chances, int last) {
        double sum = 0;
        for (int k = 0; k <= last; k++) {
            sum += chances[k];
        }
        return sum;
    }

    /** Groups of equal values: how many pairs and triples they make, and what they take from the variance. */
    private record Ties(double pairs, double triples, double weighted) {
        static Ties of(double[] values) {
            double[] sorted = values.clone();
            Arrays.sort(sorted);
            double pairs = 0;
            double triples = 0;
            double weighted = 0;
            for (int from = 0, to; from < sorted.length; from = to) {
                to = from + 1;
                while (to < sorted.length && sorted[to] == sorted[from]) {
                    to++;
                }
                double t = to - from;
                pairs += t * (t - 1) / 2;
                triples += t * (t - 1) * (t - 2);
                weighted += t * (t - 1) * (2 * t + 5);
            }
            return new Ties(pairs, triples, weighted);
        }
    }
}
