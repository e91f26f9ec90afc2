package panelbook.app.pictures;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import panelbook.app.matching.Agreement;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.PresetForecast;
import panelbook.wire.Run;

/**
 * What was measured of a preset.
 *
 * @param runs that showed how it stood, oldest first, cut down to their greys
 * @param shown the same and all others that anything here names, as the contract shows them, by id
 * @param ramp the latest run with several greys, whole; null when there is none
 * @param primaries the latest run with all three primaries, whole; null when there is none
 * @param agreements in force in which it is the follower
 * @param closing runs of those agreements by id, cut down to their greys
 * @param heroWhite the latest white of the hero of those agreements; null when there is none
 * @param residuals found over time, oldest first
 * @param limits of its tolerance set
 */
record Story(
        PresetFacts preset,
        PresetForecast forecast,
        List<RunMeasured> runs,
        Map<UUID, Run> shown,
        @Nullable RunMeasured ramp,
        @Nullable RunMeasured primaries,
        List<Agreement> agreements,
        Map<UUID, RunMeasured> closing,
        @Nullable RunMeasured heroWhite,
        List<Finding> residuals,
        Function<Metric, OptionalDouble> limits) {

    /** Coverage factor of the uncertainties that are drawn and told. */
    static final double K = 2;

    OptionalDouble limit(Metric metric) {
        return limits.apply(metric);
    }

    @Nullable
    Run shown(UUID runId) {
        return shown.get(runId);
    }

    /** Whether a run is or was a baseline. */
    boolean isBaseline(UUID runId) {
        var run = shown.get(runId);
        return run != null && run.baseline();
    }

    /** Where a figure was read: "2026-03-02 check: …, Probe A". */
    String reading(UUID runId, Instant at, String figure) {
        var run = shown.get(runId);
        return run == null
                ? Say.day(at) + ": " + figure
                : Say.day(at) + " " + run.purpose() + (run.baseline() ? " (baseline)" : "") + ": " + figure + ", "
                        + run.instrument();
    }

    /** The run in words: "the check of 2026-03-02". */
    static String run(RunMeasured run) {
        return "the " + run.run().purpose() + " run of " + Say.day(run.run().takenAt());
    }

    /** Expanded uncertainty of a luminance that a run measured, cd/m². */
    static double expanded(RunMeasured run, double luminance) {
        return K
                * LinearCombination.standardUncertainty(
                        List.of(run.measured().uncertainty().ofLuminance(1, luminance)));
    }
}
