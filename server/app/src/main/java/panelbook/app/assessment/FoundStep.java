package panelbook.app.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.control.Move;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.wire.Metric;
import panelbook.wire.ReadingRef;

/**
 * A step of a preset, or what it moved by where another stepped.
 *
 * @param lastBefore index of the last run before it
 * @param firstAfter index of the first run after it
 * @param size in ln luminance, or in u′ and v′
 * @param atChangeOfMeter whether it lies exactly where another meter took over
 */
record FoundStep(Metric metric, StepSeries series, int lastBefore, int firstAfter, Move size, boolean atChangeOfMeter) {

    /** Readings named on either side; the size rests on all of them, but nobody reads a list of hundreds. */
    private static final int NAMED = 5;

    RunMeasured before() {
        return series.run(lastBefore);
    }

    RunMeasured after() {
        return series.run(firstAfter);
    }

    /** The last run before it. */
    Instant from() {
        return before().run().takenAt();
    }

    /** The first run after it. */
    Instant to() {
        return after().run().takenAt();
    }

    /** Whether one meter was used on both sides. */
    boolean byOneMeter() {
        return meter().id().equals(before().instrument().id());
    }

    InstrumentFacts meter() {
        return after().instrument();
    }

    /** How far it went, in the metric's unit; at a change of meter with what the two may differ by. */
    Estimate value() {
        var length = size.length();
        var u = atChangeOfMeter
                ? Math.hypot(length.standardUncertainty(), series.betweenMeters(metric, lastBefore, firstAfter))
                : length.standardUncertainty();
        if (metric == Metric.STEP_WHITE) {
            return new Estimate(length.value(), u);
        }
        var ratio = Math.exp(size.parts().get(0).value());
        return new Estimate(100 * Math.abs(ratio - 1), 100 * ratio * u);
    }

    /** Such as "peak luminance by −6.1 %". */
    String what() {
        return metric == Metric.STEP_LUMINANCE ? "peak luminance by " + amount() : "white by " + amount();
    }

    /** Such as "−6.1 %". */
    String amount() {
        if (metric == Metric.STEP_LUMINANCE) {
            return Say.signed(100 * (Math.exp(size.parts().get(0).value()) - 1), 1) + " %";
        }
        return "Δu′ " + Say.signed(size.parts().get(0).value(), 4) + ", Δv′ "
                + Say.signed(size.parts().get(1).value(), 4);
    }

    /** Between which runs, with the days and the counter. */
    String when() {
        var hours = series.isOverPanelHours()
                ? " (" + Say.fixed(panelHours(before()), 0) + " and " + Say.fixed(panelHours(after()), 0)
                        + " panel hours)"
                : "";
        return "between the runs of " + Say.day(from()) + " and " + Say.day(to()) + hours;
    }

    private static double panelHours(RunMeasured run) {
        var hours = run.run().panelHours();
        return hours == null ? 0 : hours;
    }

    /** What it says by itself. */
    String tale() {
        var figure = metric == Metric.STEP_LUMINANCE ? "Peak luminance" : "White";
        if (!atChangeOfMeter) {
            return figure + " stepped by " + amount() + ", ageing apart, " + when() + ".";
        }
        return figure + " reads otherwise by " + amount() + " since "
                + after().instrument().name() + " (run of "
                + Say.day(to()) + ") took over from " + before().instrument().name() + " (run of " + Say.day(from())
                + "). The step lies exactly at that change: it points at the two meters, not at the display. Measure it"
                + " with both on one day.";
    }

    /** The readings of the last run before and of the first after, then some around these. */
    List<ReadingRef> readings() {
        var named = new ArrayList<>(List.of(before().white(), after().white()));
        for (var i = Math.max(0, lastBefore - NAMED + 1); i < lastBefore; i++) {
            named.add(series.run(i).white());
        }
        for (var i = firstAfter + 1; i < Math.min(series.size(), firstAfter + NAMED); i++) {
            named.add(series.run(i).white());
        }
        return named;
    }

    /** The runs that it rests on by name. */
    RunMeasured[] runs() {
        var from = Math.max(0, lastBefore - NAMED + 1);
        var to = Math.min(series.size(), firstAfter + NAMED);
        var runs = new RunMeasured[to - from];
        for (var i = from; i < to; i++) {
            runs[i - from] = series.run(i);
        }
        return runs;
    }

    /** Stays the same while the step does. */
    String evidence() {
        return before().id() + ".." + after().id();
    }
}
