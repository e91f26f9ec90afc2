package panelbook.colorimetry.forecast;

import java.util.Arrays;

/** Bounds from order statistics. */
final class Ranks {
    private Ranks() {}

    /**
     * The value that the truth lies below with a given chance.
     *
     * @param sorted pairwise estimates, ascending
     * @param cumulative chance that at most 0, 1, ... of them lie below the truth, were there no ties among places
     * @param chance that is asked for
     * @return interpolated in chance between neighbours, so that few points give no leaps
     */
    static double quantile(double[] sorted, double[] cumulative, double chance) {
        double fullCount = cumulative.length - 1;
        int k = 0;
        while (k < fullCount && cumulative[k] < chance) {
            k++;
        }
        double between = k == 0 ? 0 : (chance - cumulative[k - 1]) / (cumulative[k] - cumulative[k - 1]);
        // ties among places leave fewer slopes than pairs: the rank shrinks with them
        double rank = (k == 0 ? 0 : k - 1 + between) * (sorted.length / fullCount);
        int below = (int) Math.min(Math.floor(rank), sorted.length - 1.0);
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (rank - below) * (sorted[above] - sorted[below]);
    }

    /** Means of all pairs, each value with itself included, ascending: their median is Hodges and Lehmann's level. */
    static double[] walshAverages(double[] values) {
        double[] averages = new double[values.length * (values.length + 1) / 2];
        int count = 0;
        for (int i = 0; i < values.length; i++) {
            for (int j = i; j < values.length; j++) {
                averages[count++] = (values[i] + values[j]) / 2;
            }
        }
        Arrays.sort(averages);
        return averages;
    }

    /** Chance that at most 0, 1, ... of the Walsh averages lie below the truth: Wilcoxon's signed ranks, in full. */
    static double[] cumulativeSignedRanks(int n) {
        double[] chances = {1};
        for (int rank = 1; rank <= n; rank++) {
            double[] next = new double[chances.length + rank];
            for (int k = 0; k < chances.length; k++) {
                next[k] += chances[k] / 2;
                next[k + rank] += chances[k] / 2;
            }
            chances = next;
        }
        for (int k = 1; k < chances.length; k++) {
            chances[k] += chances[k - 1];
        }
        return chances;
    }
}
