package panelbook.app.pictures;

import java.util.Comparator;
import java.util.List;
import panelbook.app.assessment.Verified;
import panelbook.app.assessment.Verified.VerifiedPatch;
import panelbook.app.runs.RunMeasured;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.Metric;
import panelbook.wire.SeriesKind;

/** How far each grey of the latest ramp is from its aim. */
final class Greys {

    static final DrawingAxis SIGNAL = new DrawingAxis("signal", "%", AxisScale.LINEAR, 1);

    private static final String NOTHING = "No run holds three greys or more yet.";

    private Greys() {}

    static Drawing deltaE(Story story) {
        var sketch = new Sketch(
                story,
                DrawingName.GREY_DELTA_E,
                "Greyscale, error of each level",
                SIGNAL,
                new DrawingAxis("error", "ΔE ITP", AxisScale.LINEAR, 2));
        var run = story.ramp();
        if (run == null) {
            return sketch.done(NOTHING);
        }
        var greys = greys(story, run);
        sketch.add(
                "measured",
                SeriesKind.READINGS,
                greys.stream()
                        .map(grey -> {
                            var value = grey.patch().deltaEItp();
                            var expanded = Story.K * grey.deltaEItpUncertainty();
                            return new DrawingPoint(
                                    signal(run, grey),
                                    value,
                                    null,
                                    null,
                                    Math.max(0, value - expanded),
                                    value + expanded,
                                    words(
                                            story,
                                            run,
                                            grey,
                                            "ΔE ITP " + Say.fixed(value, 2) + " ± " + Say.digits(expanded, 2)),
                                    run.id(),
                                    run.run().takenAt());
                        })
                        .toList());
        sketch.limit(story.limit(Metric.DELTA_E_ITP_MAX));
        var worst = greys.stream()
                .max(Comparator.comparingDouble(grey -> grey.patch().deltaEItp()))
                .orElseThrow();
        return sketch.done("In " + Story.run(run) + " the largest error of a grey is ΔE ITP "
                + Say.fixed(worst.patch().deltaEItp(), 2) + ", at code " + code(worst) + " ("
                + Say.fixed(signal(run, worst), 0) + " % signal).");
    }

    static Drawing luminance(Story story) {
        var sketch = new Sketch(
                story,
                DrawingName.GREY_LUMINANCE,
                "Greyscale, luminance error of each level",
                SIGNAL,
                new DrawingAxis("luminance error", "%", AxisScale.LINEAR, 1));
        var run = story.ramp();
        if (run == null) {
            return sketch.done(NOTHING);
        }
        var verified = Verified.of(story.preset().target(), run);
        var judged = greys(story, run).stream().filter(VerifiedPatch::judged).toList();
        if (judged.isEmpty()) {
            return sketch.done("No grey of " + Story.run(run) + " is bright enough for its luminance to be judged.");
        }
        sketch.add(
                "measured",
                SeriesKind.READINGS,
                judged.stream().map(grey -> luminance(story, run, grey)).toList());
        sketch.level("", SeriesKind.REFERENCE, 0);
        var limit = story.limit(Metric.GREY_LUMINANCE_ERROR);
        limit.ifPresent(at -> sketch.level("limit +" + Say.fixed(at, 1), SeriesKind.LIMIT, at)
                .level("limit −" + Say.fixed(at, 1), SeriesKind.LIMIT, -at));
        var worst = judged.stream()
                .max(Comparator.comparingDouble(grey -> Math.abs(error(grey))))
                .orElseThrow();
        return sketch.done("In " + Story.run(run) + " the largest luminance error of a grey is "
                + Say.fixed(error(worst), 1) + " %, at code " + code(worst) + " (" + Say.fixed(signal(run, worst), 0)
                + " % signal). Greys below " + Say.digits(verified.floor(), 1)
                + " cd/m² are left out: they mostly show noise.");
    }

    private static DrawingPoint luminance(Story story, RunMeasured run, VerifiedPatch grey) {
        var expanded = Story.K * (grey.luminanceErrorUncertainty() == null ? 0 : grey.luminanceErrorUncertainty());
        return DrawingPoint.reading(
                signal(run, grey),
                error(grey),
                expanded,
                words(story, run, grey, Say.fixed(error(grey), 1) + " % ± " + Say.digits(expanded, 2)),
                run.id(),
                run.run().takenAt());
    }

    /** Above the floor light is expected, so that there is an error. */
    private static double error(VerifiedPatch grey) {
        return grey.luminanceErrorPercent() == null ? 0 : grey.luminanceErrorPercent();
    }

    /** From dark to bright. */
    static List<VerifiedPatch> greys(Story story, RunMeasured run) {
        return Verified.of(story.preset().target(), run).patches().stream()
                .filter(verified -> verified.patch().patch().isGrey())
                .sorted(Comparator.comparingInt(Greys::code))
                .toList();
    }

    static int code(VerifiedPatch grey) {
        return grey.patch().patch().red();
    }

    /** %. */
    static double signal(RunMeasured run, VerifiedPatch grey) {
        return 100 * run.readings().codes().toSignal(code(grey));
    }

    private static String words(Story story, RunMeasured run, VerifiedPatch grey, String figure) {
        return story.reading(run.id(), run.run().takenAt(), "grey " + code(grey) + " " + figure);
    }
}
