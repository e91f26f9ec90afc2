package panelbook.colorimetry.control;

import java.util.OptionalInt;
import panelbook.colorimetry.Require;

/**
 * The control chart of an exponentially weighted moving average, with the limits of the steady state. Source:
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
 *
 * @param target where the figure stands in control, any unit
 * @param sigma standard deviation of one figure, same unit, greater than zero
 * @param lambda share of the newest figure in the average, above 0 to 1
 * @param width how many standard deviations of the average the limits lie off, greater than zero
 */
public record EwmaChart(double target, double sigma, double lambda, double width) {
    public EwmaChart {
        Require.finite("target", target);
        Require.positive("sigma", sigma);
        Require.positive("width", width);
        checkLambda(lambda);
    }

    static double checkLambda(double lambda) {
        if (!(lambda > 0 && lambda <= 1)) {
            throw new IllegalArgumentException("lambda must lie above 0 and not above 1, but is " + lambda);
        }
        return lambda;
    }

    /** Limit off the target in standard deviations of one figure. */
    static double reach(double lambda, double width) {
        return width * Math.sqrt(lambda / (2 - lambda));
    }

    /**
     * The upper limit.
     *
     * @return target + width sigma sqrt(lambda / (2 - lambda))
     */
    public double upper() {
        return target + sigma * reach(lambda, width);
    }

    /**
     * The lower limit.
     *
     * @return target - width sigma sqrt(lambda / (2 - lambda))
     */
    public double lower() {
        return target - sigma * reach(lambda, width);
    }

    /**
     * The averages.
     *
     * @param values figures in order of time
     * @return after each figure lambda value + (1 - lambda) average before, from the target on
     */
    public double[] averages(double... values) {
        double[] averages = new double[values.length];
        double average = target;
        for (int i = 0; i < values.length; i++) {
            average = lambda * values[i] + (1 - lambda) * average;
            averages[i] = average;
        }
        return averages;
    }

    /**
     * The signal.
     *
     * @param values figures in order of time
     * @return index of the first figure whose average lies beyond a limit; empty when none does
     */
    public OptionalInt signal(double... values) {
        double[] averages = averages(values);
        for (int i = 0; i < averages.length; i++) {
            if (averages[i] > upper() || averages[i] < lower()) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }
}
