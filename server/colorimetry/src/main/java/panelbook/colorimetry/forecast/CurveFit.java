package panelbook.colorimetry.forecast;

import java.util.Arrays;
import org.hipparchus.exception.MathIllegalArgumentException;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DiagonalMatrix;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresFactory;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;

/**
 * The door to curve fitting: weighted least squares by Levenberg and Marquardt, plain or reweighted until wild readings
 * count for nothing.
 *
 * @param parameters of the curve, as the model orders them
 * @param weights of the readings, 0 to 1
 * @param weightedSquares sum of weighted squared residuals
 */
record CurveFit(double[] parameters, double[] weights, double weightedSquares) {
    private static final int MOST_EVALUATIONS = 20_000;
    private static final int MOST_REWEIGHTINGS = 30;

    /** Tukey's biweight: 95 % efficient for normal noise. Source: Beaton and Tukey, Technometrics 16 (1974) 147. */
    private static final double CUTOFF = 4.685;

    /** Median of |residual| to standard deviation of normal noise: 1 / Phi^-1(3/4). */
    private static final double MAD_TO_SIGMA = 1.4826;

    /** A family of curves. */
    interface Model {
        /** Values at all places for these parameters; what is not finite is taken for a very bad fit. */
        double[] values(double[] parameters);
    }

    /** All readings count alike. */
    static CurveFit plain(Model model, double[] start, double[] observed) {
        double[] ones = new double[observed.length];
        Arrays.fill(ones, 1);
        return weighted(model, start, observed, ones);
    }

    /** Readings far from the curve count less, from 4.685 robust standard deviations on for nothing. */
    static CurveFit robust(Model model, double[] start, double[] observed, double noiseFloor) {
        CurveFit fit = plain(model, start, observed);
        for (int round = 0; round < MOST_REWEIGHTINGS; round++) {
            double[] residuals = residuals(model.values(fit.parameters), observed);
            double[] weights = weights(residuals, Math.max(scale(residuals, start.length), noiseFloor));
            boolean settled = furthest(weights, fit.weights) < 1e-4;
            fit = weighted(model, fit.parameters, observed, weights);
            if (settled) {
                break;
            }
        }
        return fit;
    }

    private static double[] residuals(double[] values, double[] observed) {
        double[] residuals = new double[observed.length];
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] = observed[i] - values[i];
        }
        return residuals;
    }

    /** With a factor for few readings. Source: Rousseeuw and Leroy, Robust Regression (1987), chapter 5 (from memory). */
    static double scale(double[] residuals, int parameters) {
        double[] sizes = Arrays.stream(residuals).map(Math::abs).toArray();
        return MAD_TO_SIGMA * (1 + 5.0 / Math.max(1, residuals.length - parameters)) * TheilSen.median(sizes);
    }

    static double[] weights(double[] residuals, double scale) {
        double[] weights = new double[residuals.length];
        for (int i = 0; i < weights.length; i++) {
            double u = scale > 0 ? residuals[i] / (CUTOFF * scale) : 0;
            weights[i] = Math.abs(u) < 1 ? (1 - u * u) * (1 - u * u) : 0;
        }
        return weights;
    }

    private static double furthest(double[] a, double[] b) {
        double most = 0;
        for (int i = 0; i < a.length; i++) {
            most = Math.max(most, Math.abs(a[i] - b[i]));
        }
        return most;
    }

    static CurveFit weighted(Model model, double[] start, double[] observed, double[] weights) {
        Search search = new Search(model, observed, weights, start);
        search.run(start);
        return new CurveFit(search.best, weights, search.least);
    }

    /** One search; it keeps the best that it met, so that running out of evaluations loses nothing. */
    private static final class Search {
        private final Model model;
        private final double[] observed;
        private final double[] weights;
        private double[] best;
        private double least = Double.POSITIVE_INFINITY;

        Search(Model model, double[] observed, double[] weights, double[] start) {
            this.model = model;
            this.observed = observed;
            this.weights = weights;
            this.best = start;
        }

        void run(double[] start) {
            MultivariateJacobianFunction function = this::valueAndSlope;
            try {
                new LevenbergMarquardtOptimizer()
                        .withCostRelativeTolerance(1e-14)
                        .withParameterRelativeTolerance(1e-12)
                        .withOrthoTolerance(1e-14)
                        .optimize(LeastSquaresFactory.create(
                                function,
                                new ArrayRealVector(observed, false),
                                new ArrayRealVector(start, true),
                                new DiagonalMatrix(weights),
                                null,
                                MOST_EVALUATIONS,
                                MOST_EVALUATIONS));
            } catch (MathIllegalStateException | MathIllegalArgumentException noFurther) {
                // no step leads further down within the precision of a double, or the curve left the finite numbers:
                // the best that was met is kept either way
            }
        }

        private Pair<RealVector, RealMatrix> valueAndSlope(RealVector point) {
            double[] x = point.toArray();
            double[] value = finite(model.values(x));
            keepBest(x, value);
            double[][] slope = new double[value.length][x.length];
            for (int j = 0; j < x.length; j++) {
                double step = Math.cbrt(Math.ulp(1.0)) * (x[j] == 0 ? 1 : Math.abs(x[j]));
                double[] above = finite(model.values(moved(x, j, step)));
                double[] below = finite(model.values(moved(x, j, -step)));
                for (int i = 0; i < value.length; i++) {
                    slope[i][j] = (above[i] - below[i]) / (2 * step);
                }
            }
            return new Pair<>(new ArrayRealVector(value, false), new Array2DRowRealMatrix(slope, false));
        }

        private static double[] moved(double[] x, int j, double step) {
            double[] moved = x.clone();
            moved[j] += step;
            return moved;
        }

        private static double[] finite(double[] values) {
            for (int i = 0; i < values.length; i++) {
                values[i] = Double.isFinite(values[i]) ? Math.max(-1e100, Math.min(1e100, values[i])) : 1e100;
            }
            return values;
        }

        private void keepBest(double[] x, double[] value) {
            double sum = 0;
            for (int i = 0; i < value.length; i++) {
                sum += weights[i] * (value[i] - observed[i]) * (value[i] - observed[i]);
            }
            if (sum < least) {
                least = sum;
                best = x.clone();
            }
        }
    }
}
