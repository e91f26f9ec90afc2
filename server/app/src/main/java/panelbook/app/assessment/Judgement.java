package panelbook.app.assessment;

import org.jspecify.annotations.Nullable;
import panelbook.app.assessment.Tolerances.Limit;
import panelbook.colorimetry.uncertainty.Conformance;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.Limits;
import panelbook.wire.Decision;
import panelbook.wire.Metric;
import panelbook.wire.Rule;

/**
 * A figure against its limit, JCGM 106:2012 with a guard band for the probability that the tolerance set asks for.
 *
 * @param conformance probability that the true value is inside the limit; null when nothing is known of it
 * @param clear within, and inside the limit by the hysteresis: an alert that the figure holds open may close
 */
record Judgement(Decision decision, @Nullable Double conformance, boolean clear) {

    static Judgement of(Figure figure, Limit limit, Tolerances tolerances) {
        if (figure.unknown()) {
            return new Judgement(Decision.UNDECIDED, null, false);
        }
        var estimate = new Estimate(figure.value(), figure.uncertainty() == null ? 0 : figure.uncertainty());
        var limits = figure.metric().lowerLimit() ? Limits.atLeast(limit.value()) : Limits.atMost(limit.value());
        var decision = Conformance.decide(estimate, limits, tolerances.conformanceProbability());
        var clear = decision == panelbook.colorimetry.uncertainty.Decision.WITHIN
                && insideBy(figure, limit, tolerances.hysteresis());
        return new Judgement(Decision.valueOf(decision.name()), Conformance.probability(estimate, limits), clear);
    }

    /** Days and hours only grow until it is calibrated again: nothing there can flap. */
    private static boolean insideBy(Figure figure, Limit limit, double hysteresis) {
        if (figure.metric().rule() == Rule.RECALIBRATION) {
            return true;
        }
        if (figure.metric() == Metric.GAMUT_COVERAGE) {
            // what is missing counts: a share of the limit itself could lie above 100 %
            return 100 - figure.value() <= (100 - limit.value()) * (1 - hysteresis);
        }
        if (figure.metric().lowerLimit()) {
            return figure.value() >= limit.value() * (1 + hysteresis);
        }
        return figure.value() <= limit.value() * (1 - hysteresis);
    }
}
