package panelbook.app.pictures;

import java.time.Instant;
import java.util.ArrayList;
import panelbook.app.assessment.Verified;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.Metric;
import panelbook.wire.SeriesKind;

/** White over black, over time. */
final class Contrasts {

    static final DrawingAxis DAY = new DrawingAxis("day", "", AxisScale.TIME, 0);

    private static final double MILLISECONDS_PER_DAY = 86_400_000;

    private Contrasts() {}

    static Drawing of(Story story) {
        var sketch = new Sketch(
                story, DrawingName.CONTRAST, "Contrast", DAY, new DrawingAxis("contrast", ":1", AxisScale.LINEAR, 0));
        var readings = new ArrayList<DrawingPoint>();
        var baselines = new ArrayList<DrawingPoint>();
        var atFloor = 0;
        for (var run : story.runs()) {
            var contrast = Verified.contrast(run);
            if (contrast == null) {
                atFloor += run.readings().black().isPresent() ? 1 : 0;
                continue;
            }
            var expanded = Story.K * contrast.standardUncertainty();
            var at = run.run().takenAt();
            (story.isBaseline(run.id()) ? baselines : readings)
                    .add(new DrawingPoint(
                            day(at),
                            contrast.value(),
                            null,
                            null,
                            Math.max(0, contrast.value() - expanded),
                            contrast.value() + expanded,
                            story.reading(
                                    run.id(), at, Say.fixed(contrast.value(), 0) + ":1 ± " + Say.digits(expanded, 2)),
                            run.id(),
                            at));
        }
        sketch.add("readings", SeriesKind.READINGS, readings);
        sketch.add("baseline", SeriesKind.BASELINES, baselines);
        var unmeasurable = atFloor == 0
                ? ""
                : " In " + atFloor + (atFloor == 1 ? " run" : " runs")
                        + " it is not measurable, since black lies at the meter's floor.";
        if (sketch.isEmpty()) {
            return sketch.done("No run gives a contrast yet." + unmeasurable);
        }
        sketch.limit(story.limit(Metric.CONTRAST));
        return sketch.done(summary(story) + unmeasurable);
    }

    private static String summary(Story story) {
        for (var i = story.runs().size() - 1; i >= 0; i--) {
            var run = story.runs().get(i);
            var contrast = Verified.contrast(run);
            if (contrast != null) {
                return "Contrast was " + Say.fixed(contrast.value(), 0) + ":1 (± "
                        + Say.digits(Story.K * contrast.standardUncertainty(), 2) + ", k = 2) in " + Story.run(run)
                        + ".";
            }
        }
        return "";
    }

    /** Days since 1970-01-01T00:00Z. */
    static double day(Instant at) {
        return at.toEpochMilli() / MILLISECONDS_PER_DAY;
    }
}
