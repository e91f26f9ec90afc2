package panelbook.colorimetry.control;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Least squares of all kinds of figures of a track on the same columns, run after run. Columns are a constant, the hours, one
 * for each meter after the first, one for each step and, once asked for, the square of the hours.
 */
final class Regression {
    private static final double SINGULAR = 1e-10;

    private final Track track;
    private final List<double[]> columns;
    private final double[][] normal;
    private final double[][] sums;
    private final double[] squares;
    private final double[] origin;
    private final List<Integer> runs = new ArrayList<>();
    private double @Nullable [][] inverse;

    /** Of some columns, each as long as the track, with no run taken in. */
    Regression(Track track, List<double[]> columns) {
        this.track = track;
        this.columns = List.copyOf(columns);
        this.normal = new double[columns.size()][columns.size()];
        this.sums = new double[track.kinds()][columns.size()];
        this.squares = new double[track.kinds()];
        this.origin = new double[track.kinds()];
        for (int f = 0; f < origin.length && track.size() > 0; f++) {
            origin[f] = track.figure(f, 0);
        }
    }

    /** A constant and the hours, scaled to lie between 0 and 1. */
    static List<double[]> line(Track track) {
        int n = track.size();
        double first = n == 0 ? 0 : track.over(0);
        double range = n == 0 ? 0 : track.over(n - 1) - first;
        double[] one = new double[n];
        double[] hours = new double[n];
        for (int i = 0; i < n; i++) {
            one[i] = 1;
            hours[i] = range > 0 ? (track.over(i) - first) / range : 0;
        }
        return new ArrayList<>(List.of(one, hours));
    }

    /** 1 from an index on, else 0. */
    static double[] step(Track track, int first) {
        double[] column = new double[track.size()];
        java.util.Arrays.fill(column, first, column.length, 1);
        return column;
    }

    void add(int i) {
        for (int a = 0; a < columns.size(); a++) {
            double x = columns.get(a)[i];
            for (int b = 0; b < columns.size(); b++) {
                normal[a][b] += x * columns.get(b)[i];
            }
            for (int f = 0; f < sums.length; f++) {
                sums[f][a] += x * y(f, i);
            }
        }
        for (int f = 0; f < sums.length; f++) {
            squares[f] += y(f, i) * y(f, i);
        }
        runs.add(i);
        inverse = null;
    }

    private double y(int kind, int i) {
        return track.figure(kind, i) - origin[kind];
    }

    /** The runs taken in. */
    List<Integer> runs() {
        return List.copyOf(runs);
    }

    int kinds() {
        return sums.length;
    }

    /** Runs beyond those that the columns use up. */
    int freedom() {
        return runs.size() - columns.size();
    }

    /** Whether the runs tell every column. */
    boolean solves() {
        if (inverse == null) {
            inverse = inverse(normal);
        }
        return inverse != null;
    }

    private double[][] solved() {
        if (!solves() || inverse == null) {
            throw new IllegalStateException("the runs do not tell every column");
        }
        return inverse;
    }

    double coefficient(int kind, int column) {
        double sum = 0;
        for (int b = 0; b < columns.size(); b++) {
            sum += solved()[column][b] * sums[kind][b];
        }
        return sum;
    }

    /** Variance of a sum of coefficients, in variances of one figure. */
    double variance(double[] weights) {
        double sum = 0;
        for (int a = 0; a < weights.length; a++) {
            for (int b = 0; b < weights.length; b++) {
                sum += weights[a] * solved()[a][b] * weights[b];
            }
        }
        return sum;
    }

    /** What a sum of coefficients comes to. */
    double sum(int kind, double[] weights) {
        double sum = 0;
        for (int a = 0; a < weights.length; a++) {
            sum += weights[a] == 0 ? 0 : weights[a] * coefficient(kind, a);
        }
        return sum;
    }

    /**
     * What one more column would come to.
     *
     * @param own its sum of squares that the other columns do not hold; next to zero when they hold it
     * @param sizes its coefficient for each kind of figure
     */
    record Trial(double own, double[] sizes) {

        /** How much of the scatter it would explain, in variances of one figure. */
        double explains(double[] variances) {
            double sum = 0;
            for (int f = 0; f < sizes.length; f++) {
                sum += sizes[f] * sizes[f] * own / variances[f];
            }
            return sum;
        }
    }

    Trial trial(double[] column) {
        double own = 0;
        double[] shared = new double[columns.size()];
        double[] sizes = new double[sums.length];
        for (int i : runs) {
            own += column[i] * column[i];
            for (int a = 0; a < shared.length && column[i] != 0; a++) {
                shared[a] += column[i] * columns.get(a)[i];
            }
            for (int f = 0; f < sizes.length; f++) {
                sizes[f] += column[i] * y(f, i);
            }
        }
        for (int a = 0; a < shared.length; a++) {
            for (int b = 0; b < shared.length; b++) {
                double weight = shared[a] * solved()[a][b];
                own -= weight * shared[b];
                for (int f = 0; f < sizes.length; f++) {
                    sizes[f] -= weight * sums[f][b];
                }
            }
        }
        for (int f = 0; f < sizes.length; f++) {
            sizes[f] = own > 1e-9 ? sizes[f] / own : 0;
        }
        return new Trial(Math.max(own, 0), sizes);
    }

    double[] row(int i) {
        return columns.stream().mapToDouble(column -> column[i]).toArray();
    }

    /** What a run shows above what the others foretell. */
    double off(int kind, int i) {
        return y(kind, i) - sum(kind, row(i));
    }

    /** Sum of squares that the columns leave. */
    double rest(int kind) {
        double sum = squares[kind];
        for (int a = 0; a < columns.size(); a++) {
            sum -= coefficient(kind, a) * sums[kind][a];
        }
        return Math.max(sum, 0);
    }

    /** Least standard deviation of one figure: below it rounding would look like scatter. */
    double leastScatter(int kind) {
        return Math.max(track.leastScatter(kind), 1e-9 * (1 + Math.abs(origin[kind])));
    }

    /** Gauss and Jordan; null where a column depends on the others. */
    private static double @Nullable [][] inverse(double[][] symmetric) {
        int k = symmetric.length;
        double[][] a = new double[k][2 * k];
        for (int i = 0; i < k; i++) {
            System.arraycopy(symmetric[i], 0, a[i], 0, k);
            a[i][k + i] = 1;
        }
        for (int p = 0; p < k; p++) {
            // a matrix of normal equations needs no exchange of rows
            if (!(a[p][p] > SINGULAR * Math.max(symmetric[p][p], SINGULAR))) {
                return null;
            }
            double pivot = a[p][p];
            for (int j = 0; j < 2 * k; j++) {
                a[p][j] /= pivot;
            }
            for (int i = 0; i < k; i++) {
                double factor = a[i][p];
                for (int j = 0; i != p && factor != 0 && j < 2 * k; j++) {
                    a[i][j] -= factor * a[p][j];
                }
            }
        }
        double[][] result = new double[k][];
        for (int i = 0; i < k; i++) {
            result[i] = java.util.Arrays.copyOfRange(a[i], k, 2 * k);
        }
        return result;
    }
}
