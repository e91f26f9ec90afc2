package panelbook.app.pictures;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import panelbook.app.assessment.Verified;
import panelbook.app.assessment.Verified.VerifiedPatch;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.signal.Eotf;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.SeriesKind;

/** The curve from signal to luminance, measured and as the target asks for. */
final class Tone {

    /** One for each 2 % of the signal. */
    private static final int STEPS = 50;

    private Tone() {}

    static Drawing of(Story story) {
        var sketch = new Sketch(
                story,
                DrawingName.EOTF,
                "EOTF",
                Greys.SIGNAL,
                new DrawingAxis("luminance", "cd/m²", AxisScale.LOGARITHMIC, 3));
        var run = story.ramp();
        if (run == null) {
            return sketch.done("No run holds three greys or more yet.");
        }
        var eotf = story.preset().target().eotf();
        var verified = Verified.of(story.preset().target(), run);
        var curve = eotf.on(verified.luminance());
        sketch.add(
                "target, " + name(eotf),
                SeriesKind.AIM_CURVE,
                IntStream.rangeClosed(0, STEPS)
                        .mapToObj(step -> DrawingPoint.of(100.0 * step / STEPS, curve.luminance((double) step / STEPS)))
                        .filter(point -> point.y() > 0)
                        .toList());
        var greys = Greys.greys(story, run);
        var dark = greys.stream().filter(grey -> luminance(grey) <= 0).count();
        sketch.add(
                "measured",
                SeriesKind.READINGS,
                greys.stream()
                        .filter(grey -> luminance(grey) > 0)
                        .map(grey -> mark(story, run, grey))
                        .toList());
        return sketch.done(summary(run, greys, name(eotf), verified)
                + (dark == 0 ? "" : " A reading of zero has no place on an axis of logarithms."));
    }

    private static double luminance(VerifiedPatch grey) {
        return grey.patch().reading().luminance();
    }

    private static DrawingPoint mark(Story story, RunMeasured run, VerifiedPatch grey) {
        var luminance = luminance(grey);
        var expanded = Story.expanded(run, luminance);
        return new DrawingPoint(
                Greys.signal(run, grey),
                luminance,
                null,
                null,
                // what is as uncertain as it is large would reach down without end
                luminance > expanded ? luminance - expanded : null,
                luminance + expanded,
                story.reading(
                        run.id(),
                        run.run().takenAt(),
                        "grey " + Greys.code(grey) + " " + Say.digits(luminance, 4) + " cd/m² ± "
                                + Say.digits(expanded, 2) + ", aimed at "
                                + Say.digits(grey.patch().expected().y(), 4)),
                run.id(),
                run.run().takenAt());
    }

    private static String summary(RunMeasured run, List<VerifiedPatch> greys, String name, Verified verified) {
        var worst = greys.stream()
                .filter(VerifiedPatch::judged)
                .filter(grey -> grey.luminanceErrorPercent() != null)
                .max(Comparator.comparingDouble(
                        grey -> Math.abs(grey.luminanceErrorPercent() == null ? 0 : grey.luminanceErrorPercent())));
        return "The greys of " + Story.run(run) + " beside " + name + " from "
                + Say.digits(verified.luminance().black(), 2) + " to "
                + Say.fixed(verified.luminance().white(), 1) + " cd/m²"
                + worst.map(grey -> "; of those from " + Say.digits(verified.floor(), 1)
                                + " cd/m² on, code " + Greys.code(grey) + " is farthest from it, by "
                                + Say.fixed(grey.luminanceErrorPercent() == null ? 0 : grey.luminanceErrorPercent(), 1)
                                + " %")
                        .orElse("")
                + ".";
    }

    private static String name(Eotf eotf) {
        if (eotf instanceof Eotf.Pq) {
            return "PQ";
        }
        if (eotf instanceof Eotf.Hlg) {
            return "HLG";
        }
        return eotf instanceof Eotf.Power power ? "power " + Say.digits(power.gamma(), 2) : "BT.1886";
    }
}
