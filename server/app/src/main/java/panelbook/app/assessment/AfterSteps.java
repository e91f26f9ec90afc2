package panelbook.app.assessment;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.wire.Metric;

/** Where whites begin anew, by the rule that findings of steps go by: what lies before a step says nothing about ageing after it. */
public final class AfterSteps {

    private AfterSteps() {}

    /**
     * The first runs after the last steps of a preset that nothing took back. A change of meter is no step.
     *
     * @param whites since the preset was left in one state, oldest first
     * @return by metric, step-luminance and step-white: the run's id; without a metric that made no step
     */
    public static Map<Metric, UUID> firstRuns(PresetFacts preset, List<RunMeasured> whites) {
        var first = new EnumMap<Metric, UUID>(Metric.class);
        var series = StepSeries.of(preset, whites);
        StepSeries.METRICS.forEach(
                metric -> series.afterLastStep(metric).ifPresent(run -> first.put(metric, run.id())));
        return first;
    }
}
