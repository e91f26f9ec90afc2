package panelbook.colorimetry.forecast;

import java.util.Arrays;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * The loss of light of a panel, in ln luminance: as expected by a line, or by a stretched exponential where that explains
 * the readings better by AICc. The band minds that few readings do not tell which: it is that of all curves together, each
 * weighted by how well it explains the readings. Beforehand the line has half of the weight, the other half is spread
 * evenly over beta from 0.4 to 0.95 (LED backlights lose light nearly exponentially; of emissive panels 0.5 to 0.9 were
 * found, from memory; the halves are a house rule). Source: Buckland, Burnham and Augustin, Biometrics 53 (1997) 603, for
 * the averaging.
 */
public final class AgeingTrend implements Trend {
    private static final double FIRST_BETA = 0.4;
    private static final double LAST_BETA = 0.95;
    private static final int BETAS = 12;
    private static final int HALVINGS = 40;
    private static final double Z = Normal.quantile(CONFIDENCE);

    private final LineTrend line;
    private final Optional<StretchedExponential> curve;
    private final PowerLine[] powers;
    private final double[] chances;
    private final double student;

    private AgeingTrend(LineTrend line, Optional<StretchedExponential> curve, PowerLine[] powers, double[] chances) {
        this.line = line;
        this.curve = curve;
        this.powers = powers;
        this.chances = chances;
        this.student = new TDistribution(powers[0].weight() - 2).inverseCumulativeProbability(CONFIDENCE);
    }

    static Trend of(LineTrend line, double[] hours, double[] logs) {
        double[] weights = CurveFit.weights(line.residuals(hours, logs), line.noise(hours, logs));
        Optional<StretchedExponential> curve = Optional.empty();
        if (hours.length >= StretchedExponential.LEAST_READINGS) {
            StretchedExponential.Fitted fitted = StretchedExponential.fit(hours, logs, line.line());
            weights = fitted.fit().weights();
            curve = Optional.of(fitted)
                    .filter(f -> f.slowsDown() && beatsLine(f, hours, logs))
                    .map(f -> f.curve());
        }
        // so many readings far from any curve leave nothing to weigh: the line by ranks stands alone
        return Arrays.stream(weights).sum() < 3.5 ? line : averaged(line, curve, hours, logs, weights);
    }

    private static boolean beatsLine(StretchedExponential.Fitted fitted, double[] hours, double[] logs) {
        double[] weights = fitted.fit().weights();
        double n = Arrays.stream(weights).sum();
        double floor = n * StretchedExponential.NOISE_FLOOR * StretchedExponential.NOISE_FLOOR;
        return n > 6
                && PowerLine.aicc(n, Math.max(fitted.fit().weightedSquares(), floor), 4)
                        < PowerLine.aicc(
                                n, PowerLine.through(1, hours, logs, weights).squares(), 3);
    }

    private static AgeingTrend averaged(
            LineTrend line, Optional<StretchedExponential> curve, double[] hours, double[] logs, double[] weights) {
        PowerLine[] powers = new PowerLine[BETAS];
        double[] chances = new double[BETAS + 1];
        double straight = PowerLine.through(1, hours, logs, weights).logEvidence();
        double sum = chances[BETAS] = 1;
        for (int k = 0; k < BETAS; k++) {
            double beta = FIRST_BETA + (LAST_BETA - FIRST_BETA) * k / (BETAS - 1);
            powers[k] = PowerLine.through(beta, hours, logs, weights);
            chances[k] = Math.exp(Math.min(powers[k].logEvidence() - straight, 500)) / BETAS;
            sum += chances[k];
        }
        double total = sum;
        return new AgeingTrend(
                line, curve, powers, Arrays.stream(chances).map(c -> c / total).toArray());
    }

    /**
     * The line by ranks.
     *
     * @return what is expected unless there is a curve
     */
    public LineTrend line() {
        return line;
    }

    /**
     * The curve.
     *
     * @return what is expected; empty when it explains the readings no better than the line
     */
    public Optional<StretchedExponential> curve() {
        return curve;
    }

    @Override
    public int readings() {
        return line.readings();
    }

    @Override
    public double at(double panelHours) {
        return curve.map(c -> c.at(panelHours)).orElseGet(() -> line.at(panelHours));
    }

    @Override
    public double low(double panelHours) {
        double lineReach = line.at(panelHours) - line.low(panelHours);
        return Math.min(at(panelHours), quantile(panelHours, lineReach, 1 - CONFIDENCE));
    }

    @Override
    public double high(double panelHours) {
        double lineReach = line.high(panelHours) - line.at(panelHours);
        return Math.max(at(panelHours), quantile(panelHours, lineReach, CONFIDENCE));
    }

    /**
     * Whether the lower edge of the band lies below a level: what {@link #low} tells, without searching for the edge.
     *
     * @param panelHours t, h
     * @param level ln luminance
     */
    boolean isLowBelow(double panelHours, double level) {
        double lineReach = line.at(panelHours) - line.low(panelHours);
        return at(panelHours) < level
                || below(level, centres(panelHours), reaches(panelHours, lineReach)) > 1 - CONFIDENCE;
    }

    private double[] centres(double hours) {
        double[] centres = new double[BETAS + 1];
        for (int k = 0; k < BETAS; k++) {
            centres[k] = powers[k].at(hours);
        }
        centres[BETAS] = line.at(hours);
        return centres;
    }

    private double[] reaches(double hours, double lineReach) {
        double[] reaches = new double[BETAS + 1];
        for (int k = 0; k < BETAS; k++) {
            reaches[k] = powers[k].reach(hours, student);
        }
        reaches[BETAS] = Math.max(lineReach, StretchedExponential.NOISE_FLOOR);
        return reaches;
    }

    /** Of the mixture, each part taken for normal with the reach of its own band. */
    private double quantile(double hours, double lineReach, double chance) {
        double[] centres = centres(hours);
        double[] reaches = reaches(hours, lineReach);
        double most = Arrays.stream(reaches).max().orElseThrow();
        double low = Arrays.stream(centres).min().orElseThrow() - 3 * most;
        double high = Arrays.stream(centres).max().orElseThrow() + 3 * most;
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (below(middle, centres, reaches) < chance) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    private double below(double value, double[] centres, double[] reaches) {
        double sum = 0;
        for (int k = 0; k < centres.length; k++) {
            if (chances[k] > 1e-6) {
                sum += chances[k] * Normal.probabilityBelow(Z * (value - centres[k]) / reaches[k]);
            }
        }
        return sum;
    }
}
