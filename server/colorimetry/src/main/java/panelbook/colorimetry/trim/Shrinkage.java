package panelbook.colorimetry.trim;

import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * The effect on one display, its own slope drawn towards the mean of its model, as a mixture of normal distributions.
 *
 * <p>True effects are normal about the model's mean with standard deviation tau; slopes are normal about them with known
 * noise. The mean has a flat prior, tau a half-t one with 4 degrees of freedom; mean and effect are integrated exactly,
 * tau over a grid, so that the interval also holds what is not known of tau. Source: Gelman et al., Bayesian Data Analysis, 3rd ed. (2013),
 * 5.4, equations 5.17 to 5.21; the family of the prior: Gelman,
 * Bayesian Analysis 1 (2006) 515-534.
 */
final class Shrinkage {
    private static final int GRID = 48;
    private static final double LEAST_TAU = 1e-3;
    private static final double MOST_TAU = 100;

    /** Weight of a part that changes no digit that matters. */
    private static final double NEGLIGIBLE = 1e-9;

    private final double[] weights = new double[GRID];
    private final double[] means = new double[GRID];
    private final double[] deviations = new double[GRID];

    /** Own slope first in the list when present; at least one slope in all. */
    private Shrinkage(Optional<Slope> own, List<Slope> others, double priorScale) {
        double[] logs = new double[GRID];
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < GRID; i++) {
            double tau = priorScale * LEAST_TAU * Math.pow(MOST_TAU / LEAST_TAU, i / (GRID - 1.0));
            logs[i] = given(tau, own, others, i) + Math.log(tau) + logPrior(tau / priorScale);
            greatest = Math.max(greatest, logs[i]);
        }
        double sum = 0;
        for (int i = 0; i < GRID; i++) {
            weights[i] = Math.exp(logs[i] - greatest);
            sum += weights[i];
        }
        for (int i = 0; i < GRID; i++) {
            weights[i] /= sum;
        }
    }

    static Shrinkage of(Optional<Slope> own, List<Slope> others, double priorScale) {
        return new Shrinkage(own, others, priorScale);
    }

    /** Sets mean and deviation of the effect for a tau, and gives the logarithm of that tau's likelihood. */
    private double given(double tau, Optional<Slope> own, List<Slope> others, int i) {
        double sumW = 0;
        double sumWy = 0;
        for (Slope s : others) {
            double w = weight(s, tau);
            sumW += w;
            sumWy += w * s.value();
        }
        if (own.isPresent()) {
            double w = weight(own.get(), tau);
            sumW += w;
            sumWy += w * own.get().value();
        }
        double mean = sumWy / sumW;
        double log = -Math.log(sumW) / 2;
        for (Slope s : others) {
            log += logDensity(s, tau, mean);
        }
        if (own.isPresent()) {
            log += logDensity(own.get(), tau, mean);
        }
        double noise =
                own.map(o -> o.standardDeviation() * o.standardDeviation()).orElse(Double.POSITIVE_INFINITY);
        double between = tau * tau;
        double towardsModel = own.isPresent() ? noise / (noise + between) : 1;
        double alone = own.isPresent() ? noise * between / (noise + between) : between;
        means[i] =
                towardsModel * mean + (1 - towardsModel) * own.map(Slope::value).orElse(mean);
        deviations[i] = Math.sqrt(alone + towardsModel * towardsModel / sumW);
        return log;
    }

    /** Half-t with 4 degrees of freedom, but for a constant. */
    private static double logPrior(double ratio) {
        return -2.5 * Math.log1p(ratio * ratio / 4);
    }

    private static double weight(Slope s, double tau) {
        return 1 / (s.standardDeviation() * s.standardDeviation() + tau * tau);
    }

    private static double logDensity(Slope s, double tau, double mean) {
        double w = weight(s, tau);
        return Math.log(w) / 2 - w * (s.value() - mean) * (s.value() - mean) / 2;
    }

    /** Mean and standard deviation of the mixture. */
    Estimate estimate() {
        double mean = 0;
        double square = 0;
        for (int i = 0; i < GRID; i++) {
            mean += weights[i] * means[i];
        }
        for (int i = 0; i < GRID; i++) {
            double off = means[i] - mean;
            square += weights[i] * (deviations[i] * deviations[i] + off * off);
        }
        return new Estimate(mean, Math.sqrt(square));
    }

    /** The value that the effect lies below with a probability: Newton's steps, kept between the quantiles of the parts. */
    double quantile(double probability) {
        double z = Normal.quantile(probability);
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < GRID; i++) {
            if (weights[i] > NEGLIGIBLE) {
                low = Math.min(low, means[i] + z * deviations[i]);
                high = Math.max(high, means[i] + z * deviations[i]);
            }
        }
        double value = (low + high) / 2;
        double precise = 1e-9 * (high - low);
        for (int step = 0; step < 100 && high - low > precise; step++) {
            double error = probabilityBelow(value) - probability;
            low = error < 0 ? value : low;
            high = error < 0 ? high : value;
            double next = value - error / density(value);
            boolean inside = next > low && next < high;
            double moved = (inside ? next : (low + high) / 2) - value;
            value += moved;
            if (Math.abs(moved) < precise) {
                return value;
            }
        }
        return value;
    }

    private double probabilityBelow(double value) {
        double sum = 0;
        for (int i = 0; i < GRID; i++) {
            if (weights[i] > NEGLIGIBLE) {
                sum += weights[i] * Normal.probabilityBelow((value - means[i]) / deviations[i]);
            }
        }
        return sum;
    }

    private double density(double value) {
        double sum = 0;
        for (int i = 0; i < GRID; i++) {
            double z = (value - means[i]) / deviations[i];
            sum += weights[i] * Math.exp(-z * z / 2) / deviations[i];
        }
        return sum / Math.sqrt(2 * Math.PI);
    }
}
