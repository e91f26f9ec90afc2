package panelbook.app.pictures;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import panelbook.app.assessment.Verified;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.Cie1931Observer;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.SeriesKind;

/** The triangle of the primaries beside the target's, in u′v′. */
final class Gamut {

    private static final List<String> CHANNELS = List.of("red", "green", "blue");
    private static final int FROM_NM = 420;
    private static final int TO_NM = 680;
    private static final int STEP_NM = 5;

    private Gamut() {}

    static Drawing of(Story story) {
        var sketch = new Sketch(
                        story,
                        DrawingName.GAMUT,
                        "Gamut in the CIE 1976 u′v′ diagram",
                        new DrawingAxis("u′", "", AxisScale.LINEAR, 4),
                        new DrawingAxis("v′", "", AxisScale.LINEAR, 4))
                .equalScale();
        var run = story.primaries();
        if (run == null) {
            return sketch.done("No run holds readings of all three primaries yet.");
        }
        var space = story.preset().target().space();
        sketch.add("spectral colours", SeriesKind.SURROUNDINGS, locus());
        sketch.add(
                "target",
                SeriesKind.AIM_OUTLINE,
                Stream.of(space.red(), space.green(), space.blue())
                        .map(Chromaticity::toUV1976)
                        .map(uv -> DrawingPoint.of(uv.u(), uv.v()))
                        .toList());
        var measured = measured(story, run);
        sketch.add("measured", SeriesKind.MEASURED_OUTLINE, measured);
        sketch.add("", SeriesKind.READINGS, measured);
        var white = space.white().toUV1976();
        sketch.add("target white", SeriesKind.AIM, DrawingPoint.mark(white.u(), white.v(), "target white"));
        var coverage = Verified.of(story.preset().target(), run).gamutCoverage();
        return sketch.done(
                coverage.isPresent()
                        ? "In " + Story.run(run) + " " + Say.fixed(100 * coverage.getAsDouble(), 1)
                                + " % of the target's triangle in u′v′ is reached."
                        : "A primary of " + Story.run(run) + " is too dark to have a chromaticity.");
    }

    private static List<DrawingPoint> measured(Story story, RunMeasured run) {
        var corners = new ArrayList<DrawingPoint>();
        for (var channel = 0; channel < CHANNELS.size(); channel++) {
            var name = CHANNELS.get(channel);
            run.readings()
                    .primary(channel)
                    .ifPresent(reading -> reading.xyz()
                            .uv1976()
                            .ifPresent(uv -> corners.add(corner(story, run, name + " " + reading.patch(), uv))));
        }
        return corners;
    }

    private static DrawingPoint corner(Story story, RunMeasured run, String what, UV1976 uv) {
        return new DrawingPoint(
                uv.u(),
                uv.v(),
                null,
                null,
                null,
                null,
                story.reading(
                        run.id(),
                        run.run().takenAt(),
                        what + " u′ " + Say.fixed(uv.u(), 4) + ", v′ " + Say.fixed(uv.v(), 4)),
                run.id(),
                run.run().takenAt());
    }

    private static List<DrawingPoint> locus() {
        var points = new ArrayList<DrawingPoint>();
        for (var nm = FROM_NM; nm <= TO_NM; nm += STEP_NM) {
            new XYZ(Cie1931Observer.xBar(nm), Cie1931Observer.yBar(nm), Cie1931Observer.zBar(nm))
                    .uv1976()
                    .ifPresent(uv -> points.add(DrawingPoint.of(uv.u(), uv.v())));
        }
        return points;
    }
}
