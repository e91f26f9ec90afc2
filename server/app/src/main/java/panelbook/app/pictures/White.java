package panelbook.app.pictures;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import panelbook.app.matching.Agreement;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.Metric;
import panelbook.wire.SeriesKind;

/** White in the CIE 1976 u′v′ diagram: its way since the last baseline, and what it is to keep to. */
final class White {

    private static final int DECIMALS = 4;

    private final Story story;
    private final Sketch sketch;
    private final List<RunMeasured> trail;

    private White(Story story) {
        this.story = story;
        this.trail = sinceLastBaseline();
        this.sketch = new Sketch(
                        story,
                        DrawingName.WHITE,
                        "White in the CIE 1976 u′v′ diagram",
                        new DrawingAxis("u′", "", AxisScale.LINEAR, DECIMALS),
                        new DrawingAxis("v′", "", AxisScale.LINEAR, DECIMALS))
                .equalScale();
    }

    static Drawing of(Story story) {
        return new White(story).drawing();
    }

    private List<RunMeasured> sinceLastBaseline() {
        var runs = story.runs().stream().filter(run -> uv(run).isPresent()).toList();
        var first = 0;
        for (var i = 0; i < runs.size(); i++) {
            if (story.isBaseline(runs.get(i).id())) {
                first = i;
            }
        }
        return runs.subList(Math.min(first, runs.size()), runs.size());
    }

    private static Optional<UV1976> uv(RunMeasured run) {
        return run.readings().white().flatMap(reading -> reading.xyz().uv1976());
    }

    private Drawing drawing() {
        if (trail.isEmpty()) {
            return sketch.done("No run holds a reading of white yet.");
        }
        var last = trail.get(trail.size() - 1);
        var now = uv(last).orElseThrow();
        var radius = Story.K * last.measured().uncertainty().chromaticity();
        sketch.add(
                "uncertainty, k = 2",
                SeriesKind.UNCERTAINTY_REGION,
                DrawingPoint.circle(
                        now.u(), now.v(), radius, "uncertainty of the latest reading, k = 2: ± " + number(radius)));
        var aims = aims(now);
        sketch.add("", SeriesKind.TRAIL, marks(trail.subList(0, trail.size())));
        sketch.add("latest, " + Say.day(last.run().takenAt()), SeriesKind.READINGS, marks(List.of(last)));
        return sketch.done("White was u′ " + number(now.u()) + ", v′ " + number(now.v()) + " on "
                + Say.day(last.run().takenAt()) + " (± " + number(radius) + ", k = 2): " + Say.list(aims) + "."
                + (trail.size() > 1
                        ? " The trail shows " + trail.size() + " runs since "
                                + Say.day(trail.get(0).run().takenAt()) + "."
                        : ""));
    }

    /** What it is to keep to, each with its distance in words. */
    private List<String> aims(UV1976 now) {
        var words = new ArrayList<String>();
        var target = story.preset().target().space().white().toUV1976();
        sketch.add(
                "target white",
                SeriesKind.AIM,
                DrawingPoint.mark(target.u(), target.v(), place("target white", target)));
        words.add(distance(now, target) + " from the target white");
        var hero = story.heroWhite();
        var heroUv = hero == null ? null : uv(hero).orElse(null);
        if (hero == null || heroUv == null) {
            tolerance(target, story.limit(Metric.WHITE_CHROMATICITY_ERROR), "around the target white");
            return words;
        }
        sketch.add(
                "hero, " + Say.day(hero.run().takenAt()),
                SeriesKind.HERO,
                new DrawingPoint(
                        heroUv.u(),
                        heroUv.v(),
                        null,
                        null,
                        null,
                        null,
                        place("hero on " + Say.day(hero.run().takenAt()), heroUv),
                        hero.id(),
                        hero.run().takenAt()));
        words.add(distance(now, heroUv) + " from the hero");
        for (var agreement : story.agreements()) {
            agreed(now, heroUv, agreement).ifPresent(words::add);
        }
        return words;
    }

    private Optional<String> agreed(UV1976 now, UV1976 hero, Agreement agreement) {
        return offset(agreement).map(offset -> {
            var to = new UV1976(hero.u() + offset.u(), hero.v() + offset.v());
            var name = "hero + agreed offset, " + agreement.operator();
            sketch.add(name, SeriesKind.AGREED, DrawingPoint.mark(to.u(), to.v(), place(name, to)));
            tolerance(to, story.limit(Metric.HERO_DRIFT_WHITE), "around what " + agreement.operator() + " agreed to");
            return distance(now, to) + " from what " + agreement.operator() + " agreed to";
        });
    }

    /** Follower less hero as it was signed off, in u′ and v′; empty when it was signed unmeasured. */
    private Optional<Shift> offset(Agreement agreement) {
        var follower = closing(agreement.followerRunId());
        var hero = closing(agreement.heroRunId());
        return follower == null || hero == null
                ? Optional.empty()
                : AgreedOffset.of(follower.measured(), hero.measured())
                        .white()
                        .map(shift -> new Shift(shift.u().value(), shift.v().value()));
    }

    private record Shift(double u, double v) {}

    private @Nullable RunMeasured closing(java.util.@Nullable UUID runId) {
        return runId == null ? null : story.closing().get(runId);
    }

    private void tolerance(UV1976 around, OptionalDouble limit, String where) {
        if (limit.isPresent()) {
            sketch.add(
                    "tolerance " + number(limit.getAsDouble()),
                    SeriesKind.TOLERANCE_REGION,
                    DrawingPoint.circle(
                            around.u(),
                            around.v(),
                            limit.getAsDouble(),
                            "tolerance " + number(limit.getAsDouble()) + " " + where));
        }
    }

    private List<DrawingPoint> marks(List<RunMeasured> runs) {
        return runs.stream().map(this::mark).toList();
    }

    private DrawingPoint mark(RunMeasured run) {
        var uv = uv(run).orElseThrow();
        return new DrawingPoint(
                uv.u(),
                uv.v(),
                null,
                null,
                null,
                null,
                story.reading(run.id(), run.run().takenAt(), "u′ " + number(uv.u()) + ", v′ " + number(uv.v())),
                run.id(),
                run.run().takenAt());
    }

    private static String place(String what, UV1976 uv) {
        return what + ": u′ " + number(uv.u()) + ", v′ " + number(uv.v());
    }

    private static String distance(UV1976 one, UV1976 other) {
        return "Δu′v′ " + number(Math.hypot(one.u() - other.u(), one.v() - other.v()));
    }

    private static String number(double value) {
        return Say.fixed(value, DECIMALS);
    }
}
