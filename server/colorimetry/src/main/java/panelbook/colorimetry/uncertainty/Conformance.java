package panelbook.colorimetry.uncertainty;

import panelbook.colorimetry.Require;

/**
 * Whether a measured value conforms with its limits, given its uncertainty.
 *
 * <p>Conditions: the value's distribution is normal and little was known before measuring. Source: JCGM 106:2012, clauses
 * 7 (probability of conformance) and 8.3 (guard bands).
 */
public final class Conformance {
    /** The conformance probability that a decision asks for unless told otherwise; its guard band is 1.645 u. */
    public static final double DEFAULT_PROBABILITY = 0.95;

    private Conformance() {}

    /**
     * The probability that the true value lies within the limits.
     *
     * @param estimate measured value y and its u
     * @param limits TL, TU, in the unit of the value
     * @return Phi((TU - y) / u) - Phi((TL - y) / u), 0 to 1; with u = 0 it is 1 within the limits (a value on a limit is
     *     within) and 0 outside. Source: JCGM 106:2012, 7.3 and 7.4
     */
    public static double probability(Estimate estimate, Limits limits) {
        double u = estimate.standardUncertainty();
        if (u == 0) {
            return limits.hold(estimate.value()) ? 1 : 0;
        }
        double up = (limits.upper() - estimate.value()) / u;
        double low = (limits.lower() - estimate.value()) / u;
        // from the side where both tails are small, so that their difference keeps its digits
        return low > 0
                ? Normal.probabilityBelow(-low) - Normal.probabilityBelow(-up)
                : Normal.probabilityBelow(up) - Normal.probabilityBelow(low);
    }

    /**
     * How far inside a single limit a value must lie to conform surely enough.
     *
     * @param standardUncertainty u
     * @param probability conformance probability asked for, at least 0.5 and below 1
     * @return w = k u with Phi(k) = probability, in the unit of u; 1.645 u for 0.95. Source: JCGM 106:2012, 8.3.2
     */
    public static double guardBand(double standardUncertainty, double probability) {
        return Normal.quantile(requireProbability(probability))
                * Require.notNegative("standard uncertainty", standardUncertainty);
    }

    /**
     * The decision at the default conformance probability.
     *
     * @param estimate measured value and its u
     * @param limits in the unit of the value
     * @return the decision
     */
    public static Decision decide(Estimate estimate, Limits limits) {
        return decide(estimate, limits, DEFAULT_PROBABILITY);
    }

    /**
     * The decision.
     *
     * @param estimate measured value and its u
     * @param limits in the unit of the value
     * @param probability conformance probability asked for, at least 0.5 and below 1
     * @return WITHIN inside every limit by the guard band and, where two limits lie so close that both tails count, with
     *     the probability asked for; BEYOND outside a limit by more than the guard band; else UNDECIDED. With u = 0 there
     *     is no UNDECIDED. Source: JCGM 106:2012, 8.3.2 (guarded acceptance) and 8.3.3 (guarded rejection)
     */
    public static Decision decide(Estimate estimate, Limits limits, double probability) {
        double w = guardBand(estimate.standardUncertainty(), probability);
        double value = estimate.value();
        if (value > limits.upper() + w || value < limits.lower() - w) {
            return Decision.BEYOND;
        }
        if (value > limits.upper() - w || value < limits.lower() + w) {
            return Decision.UNDECIDED;
        }
        boolean oneSided = Double.isInfinite(limits.lower()) || Double.isInfinite(limits.upper());
        return oneSided || probability(estimate, limits) >= probability ? Decision.WITHIN : Decision.UNDECIDED;
    }

    private static double requireProbability(double probability) {
        if (!(probability >= 0.5 && probability < 1)) {
            throw new IllegalArgumentException(
                    "conformance probability must be at least 0.5 and below 1, but is " + probability);
        }
        return probability;
    }
}
