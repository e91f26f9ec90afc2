package panelbook.app.fleet;

import java.util.EnumSet;
import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Checks;
import panelbook.wire.Basis;
import panelbook.wire.Metric;
import panelbook.wire.Rule;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSetDraft;

/** Whether a tolerance set can judge. */
final class ToleranceSetChecks {

    private ToleranceSetChecks() {}

    /** Notes what is wrong with {@code draft}, which {@code at} points to. */
    static Checks of(Checks checks, String at, ToleranceSetDraft draft) {
        checks.name(at + "/name", draft.name())
                .text(at + "/description", draft.description(), 10_000)
                .range(at + "/warmUpMinutes", draft.warmUpMinutes(), 0, 1440);
        atLeastOne(checks, at + "/recalibrationDays", draft.recalibrationDays());
        atLeastOne(checks, at + "/recalibrationPanelHours", draft.recalibrationPanelHours());
        checks.that(
                draft.hysteresis() >= 0 && draft.hysteresis() < 1,
                at + "/hysteresis",
                "Must be at least 0 and less than 1, but is " + draft.hysteresis() + ".");
        checks.that(
                draft.conformanceProbability() >= 0.5 && draft.conformanceProbability() < 1,
                at + "/conformanceProbability",
                "Must be at least 0.5 and less than 1, but is " + draft.conformanceProbability() + ".");
        var metrics = EnumSet.noneOf(Metric.class);
        for (var i = 0; i < draft.tolerances().size(); i++) {
            var tolerance = draft.tolerances().get(i);
            var there = at + "/tolerances/" + i;
            checks.that(
                    metrics.add(tolerance.metric()), there + "/metric", tolerance.metric() + " has a limit already.");
            tolerance(checks, there, tolerance);
        }
        return checks;
    }

    private static void tolerance(Checks checks, String at, Tolerance tolerance) {
        checks.that(
                tolerance.metric().rule() != Rule.RECALIBRATION,
                at + "/metric",
                tolerance.metric() + " takes no limit here: say it in recalibrationDays or recalibrationPanelHours.");
        checks.that(
                tolerance.limit() >= 0 && Double.isFinite(tolerance.limit()),
                at + "/limit",
                "Must be a number of at least 0, but is " + tolerance.limit() + ".");
        checks.that(
                tolerance.metric() != Metric.GAMUT_COVERAGE || tolerance.limit() <= 100,
                at + "/limit",
                "A share of the target's gamut is at most 100 %.");
        checks.that(
                tolerance.basis() == Basis.HOUSE_POLICY
                        || (tolerance.document() != null
                                && !tolerance.document().isBlank()),
                at + "/document",
                "Name the document that the figure comes from, or call it house policy.");
        checks.optionalLine(at + "/document", tolerance.document(), 500)
                .optionalLine(at + "/clause", tolerance.clause(), 200)
                .text(at + "/note", tolerance.note(), 10_000);
    }

    private static void atLeastOne(Checks checks, String at, @Nullable Integer value) {
        checks.that(value == null || value >= 1, at, "Must be at least 1, or left out for never.");
    }
}
