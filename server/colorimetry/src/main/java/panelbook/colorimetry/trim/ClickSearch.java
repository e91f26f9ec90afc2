package panelbook.colorimetry.trim;

import java.util.function.Predicate;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * The integer vector within bounds that makes n'Hn - 2g'n least, exactly: depth first over one control after the other,
 * the nearest clicks to the best real number first, and no further than the best found. Source: Schnorr and Euchner,
 * Math. Program. 66 (1994) 181-199.
 *
 * <p>Where more controls are to be set than figures tell apart, settings without number are nearly alike. So after {@link
 * #MOST_STEPS} the best found is taken: it is no worse than nothing at all, and the nearest clicks were tried first.
 */
final class ClickSearch {
    /** A search among controls that the figures tell apart takes thousands. House rule. */
    private static final int MOST_STEPS = 300_000;

    private final double[][] upper;
    private final double[] best;
    private final int size;
    private final int[] low;
    private final int[] high;
    private final Predicate<int[]> allowed;
    private final int[] trying;
    private int[] found;
    private double bound;
    private int steps;

    /** H must be positive definite; nothing at all (zero clicks) is within the bounds and allowed. */
    private ClickSearch(RealMatrix h, double[] g, int[] low, int[] high, Predicate<int[]> allowed) {
        CholeskyDecomposition cholesky = new CholeskyDecomposition(h);
        this.upper = cholesky.getLT().getData();
        this.best = cholesky.getSolver().solve(new ArrayRealVector(g, false)).toArray();
        this.size = g.length;
        this.low = low;
        this.high = high;
        this.allowed = allowed;
        this.trying = new int[size];
        this.found = new int[size];
        this.bound = distance(found);
    }

    static int[] least(RealMatrix h, double[] g, int[] low, int[] high, Predicate<int[]> allowed) {
        ClickSearch search = new ClickSearch(h, g, low, high, allowed);
        search.descend(search.size - 1, 0);
        return search.found;
    }

    private double distance(int[] clicks) {
        double sum = 0;
        for (int row = 0; row < size; row++) {
            double part = 0;
            for (int column = row; column < size; column++) {
                part += upper[row][column] * (clicks[column] - best[column]);
            }
            sum += part * part;
        }
        return sum;
    }

    private void descend(int row, double soFar) {
        if (row < 0) {
            if (allowed.test(trying)) {
                bound = soFar;
                found = trying.clone();
            }
            return;
        }
        double centre = centre(row);
        int down = (int) Math.min(Math.max(Math.floor(centre), low[row]), high[row]);
        int up = down + 1;
        while ((down >= low[row] || up <= high[row]) && steps++ < MOST_STEPS) {
            boolean goDown = up > high[row] || (down >= low[row] && centre - down <= up - centre);
            int clicks = goDown ? down-- : up++;
            double part = upper[row][row] * (clicks - centre);
            double cost = soFar + part * part;
            if (cost >= bound) {
                return;
            }
            trying[row] = clicks;
            descend(row - 1, cost);
        }
    }

    private double centre(int row) {
        double shift = 0;
        for (int column = row + 1; column < size; column++) {
            shift += upper[row][column] * (trying[column] - best[column]);
        }
        return best[row] - shift / upper[row][row];
    }
}
