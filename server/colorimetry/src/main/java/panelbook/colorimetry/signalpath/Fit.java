package panelbook.colorimetry.signalpath;

import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresFactory;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;

/** The best figures of one model on one ramp, by Levenberg and Marquardt's least squares. */
final class Fit {
    private static final double STEP = 1e-5;
    private static final double COST_TOLERANCE = 1e-5;
    private static final int MOST_EVALUATIONS = 60;

    private final DisplayModel model;
    private final Ramp ramp;
    private final RampNoise noise;
    private final double[] observed;
    private double[] figures;
    private double chiSquared = Double.POSITIVE_INFINITY;

    private Fit(DisplayModel model, Ramp ramp, RampNoise noise) {
        this.model = model;
        this.ramp = ramp;
        this.noise = noise;
        this.figures = new double[DisplayModel.FIGURES];
        this.observed = new double[ramp.size()];
        for (int i = 0; i < observed.length; i++) {
            observed[i] = noise.stabilised(ramp.luminances()[i]);
        }
    }

    static Fit of(DisplayModel model, Ramp ramp, RampNoise noise) {
        Fit fit = new Fit(model, ramp, noise);
        for (double[] start : fit.starts()) {
            fit.search(start);
        }
        return fit;
    }

    /** Sum of squares in units of the noise. */
    double chiSquared() {
        return chiSquared;
    }

    /** What the fitted display shows, cd/m2. */
    double[] luminances(double[] signals) {
        double[] result = new double[signals.length];
        model.luminances(signals, figures, result);
        return result;
    }

    /** From what the readings say at once: how far the brightest lies above or below white is what a search may miss. */
    private double[][] starts() {
        double brightest = ramp.brightest();
        if (model.isPq()) {
            return new double[][] {start(1, brightest * 1.02)};
        }
        if (model.endsBelowWhite()) {
            double white = model.scale().middle();
            return new double[][] {start(white, brightest / white)};
        }
        return model.showsAboveWhite()
                ? new double[][] {start(brightest, 1), start(brightest / 1.25, 1.25), start(brightest / 1.6, 1.6)}
                : new double[][] {start(brightest, 1)};
    }

    private double[] start(double scale, double top) {
        return new double[] {
            model.scale().unbounded(scale),
            model.black().unbounded(Math.max(ramp.darkest(), noise.floor() / 10)),
            model.top().unbounded(top)
        };
    }

    private void search(double[] start) {
        MultivariateJacobianFunction function = this::valueAndSlope;
        try {
            new LevenbergMarquardtOptimizer()
                    .optimize(LeastSquaresFactory.create(
                            function,
                            new ArrayRealVector(observed, false),
                            new ArrayRealVector(start, false),
                            (iteration, before, now) -> before.getCost() - now.getCost() < COST_TOLERANCE,
                            MOST_EVALUATIONS,
                            MOST_EVALUATIONS));
        } catch (MathIllegalStateException noFurther) {
            // out of evaluations, or on a kink where no step leads down: the best that was met is kept either way
        }
    }

    private Pair<RealVector, RealMatrix> valueAndSlope(RealVector point) {
        double[] x = point.toArray();
        double[] value = stabilised(x);
        keepBest(x, value);
        double[][] slope = new double[value.length][x.length];
        for (int j = 0; j < x.length; j++) {
            double[] moved = x.clone();
            moved[j] += STEP;
            double[] there = stabilised(moved);
            for (int i = 0; i < value.length; i++) {
                slope[i][j] = (there[i] - value[i]) / STEP;
            }
        }
        return new Pair<>(new ArrayRealVector(value, false), new Array2DRowRealMatrix(slope, false));
    }

    private void keepBest(double[] x, double[] value) {
        double sum = 0;
        for (int i = 0; i < value.length; i++) {
            sum += (value[i] - observed[i]) * (value[i] - observed[i]);
        }
        if (sum < chiSquared) {
            chiSquared = sum;
            figures = bounded(x);
        }
    }

    private double[] stabilised(double[] x) {
        double[] result = new double[ramp.size()];
        model.luminances(ramp.signals(), bounded(x), result);
        for (int i = 0; i < result.length; i++) {
            result[i] = noise.stabilised(result[i]);
        }
        return result;
    }

    private double[] bounded(double[] x) {
        return new double[] {
            model.scale().inside(x[0]), model.black().inside(x[1]), model.top().inside(x[2])
        };
    }
}
