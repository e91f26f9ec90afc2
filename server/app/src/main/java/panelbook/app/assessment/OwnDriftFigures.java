package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.List;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.drift.OwnDrift;
import panelbook.wire.Metric;

/** The figures of a preset now against the state it was left in: its baseline, or the match signed off on it since. */
final class OwnDriftFigures {

    private OwnDriftFigures() {}

    /**
     * Compares two runs.
     *
     * @param baseline the run that shows the state the preset was left in
     * @param what that state is called, such as "the baseline"
     */
    static List<Figure> of(RunMeasured baseline, String what, RunMeasured now) {
        var drift = OwnDrift.of(baseline.measured(), now.measured());
        var since = " since " + what + " of " + Say.day(baseline.run().takenAt()) + ".";
        var whites = List.of(now.white(), baseline.white());
        var blacks = List.of(now.black(), baseline.black());
        var figures = new ArrayList<Figure>();
        drift.peakLuminancePercent()
                .ifPresent(change -> figures.add(Figure.of(
                        Metric.OWN_DRIFT_LUMINANCE,
                        Math.abs(change.value()),
                        change.standardUncertainty(),
                        "Peak luminance went from " + Say.fixed(white(baseline), 1) + " to " + Say.fixed(white(now), 1)
                                + " cd/m², " + Say.signed(change.value(), 1) + " %," + since,
                        whites)));
        drift.white()
                .ifPresent(shift -> figures.add(Figure.of(
                        Metric.OWN_DRIFT_WHITE,
                        shift.distance().value(),
                        shift.distance().standardUncertainty(),
                        "White moved by Δu′ " + Say.signed(shift.u().value(), 4) + ", Δv′ "
                                + Say.signed(shift.v().value(), 4) + since,
                        whites)));
        drift.black()
                .ifPresent(change -> figures.add(Figure.of(
                        Metric.OWN_DRIFT_BLACK,
                        Math.abs(change.value()),
                        change.standardUncertainty(),
                        "Black changed by " + Say.signed(change.value(), 4) + " cd/m²" + since,
                        blacks)));
        drift.contrastPercent()
                .ifPresent(change -> figures.add(Figure.of(
                        Metric.OWN_DRIFT_CONTRAST,
                        Math.abs(change.value()),
                        change.standardUncertainty(),
                        "Contrast changed by " + Say.signed(change.value(), 1) + " %" + since,
                        List.of(now.white(), now.black(), baseline.white(), baseline.black()))));
        drift.largest()
                .ifPresent(patch -> figures.add(Figure.of(
                        Metric.OWN_DRIFT_DELTA_E_ITP,
                        patch.deltaEItp().value(),
                        patch.deltaEItp().standardUncertainty(),
                        "The patch that moved most is " + patch.patch() + ", by ΔE ITP "
                                + Say.fixed(patch.deltaEItp().value(), 1) + since,
                        List.of(now.ref(patch.patch()), baseline.ref(patch.patch())))));
        return Figure.naming(figures, now, baseline);
    }

    private static double white(RunMeasured run) {
        return run.readings().white().orElseThrow().luminance();
    }
}
