package panelbook.app.pictures;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.app.matching.Agreement;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.SeriesKind;

/** What was found to be left of the difference to the hero once the agreed offset is taken off, over time, by operator. */
final class Residuals {

    private final Story story;
    private final Metric metric;
    private final int decimals;

    private Residuals(Story story, Metric metric) {
        this.story = story;
        this.metric = metric;
        this.decimals = metric == Metric.HERO_DRIFT_WHITE ? 4 : 1;
    }

    static Drawing of(Story story, Metric metric) {
        return new Residuals(story, metric).drawing();
    }

    private Drawing drawing() {
        var white = metric == Metric.HERO_DRIFT_WHITE;
        var sketch = new Sketch(
                story,
                white ? DrawingName.MATCH_WHITE : DrawingName.MATCH_LUMINANCE,
                white ? "Residual of white since sign-off" : "Residual of peak luminance since sign-off",
                Contrasts.DAY,
                new DrawingAxis("residual", white ? "Δu′v′" : "%", AxisScale.LINEAR, decimals));
        if (story.agreements().isEmpty()) {
            return sketch.done("No match of it as a follower is in force.");
        }
        var told = new ArrayList<String>();
        for (var agreement : story.agreements()) {
            var points = points(agreement);
            var own = points.stream().filter(this::isOwn).toList();
            var days = own.stream().map(Residuals::day).collect(Collectors.toSet());
            sketch.add(agreement.operator(), SeriesKind.READINGS, own);
            // of a day on which both were measured the follower's own run tells enough
            sketch.add(
                    agreement.operator() + ", hero measured",
                    SeriesKind.HERO,
                    points.stream()
                            .filter(point -> !isOwn(point) && !days.contains(day(point)))
                            .toList());
            told.add(told(agreement, points));
        }
        for (var agreement : story.agreements()) {
            sketch.add(
                    agreement.operator() + ", signed off " + Say.day(left(agreement)),
                    SeriesKind.MOMENT,
                    DrawingPoint.mark(
                            Contrasts.day(left(agreement)),
                            0,
                            "signed off for " + agreement.operator() + ", " + Say.day(agreement.signedAt())));
        }
        sketch.limit(story.limit(metric));
        return sketch.done(String.join(" ", told));
    }

    /** When the closing run was taken; the sign-off may have been entered later. */
    private Instant left(Agreement agreement) {
        var closing = agreement.followerRunId() == null ? null : story.closing().get(agreement.followerRunId());
        return closing == null ? agreement.signedAt() : closing.run().takenAt();
    }

    private static long day(DrawingPoint point) {
        return (long) Math.floor(point.x());
    }

    /** Whether the follower was measured, rather than its hero. */
    private boolean isOwn(DrawingPoint point) {
        var run = point.runId() == null ? null : story.shown(point.runId());
        return run != null && run.presetId().equals(story.preset().presetId());
    }

    /** Of each run that brought one. */
    private List<DrawingPoint> points(Agreement agreement) {
        return story.residuals().stream()
                .filter(finding ->
                        finding.metric() == metric && agreement.matchId().equals(finding.matchId()))
                .map(this::point)
                .filter(Objects::nonNull)
                .sorted(Comparator.comparingDouble(DrawingPoint::x))
                .toList();
    }

    private @Nullable DrawingPoint point(Finding finding) {
        var run = finding.runId() == null ? null : story.shown(finding.runId());
        if (run == null) {
            return null;
        }
        var expanded = finding.uncertainty() == null ? null : Story.K * finding.uncertainty();
        return new DrawingPoint(
                Contrasts.day(run.takenAt()),
                finding.value(),
                null,
                null,
                expanded == null ? null : Math.max(0, finding.value() - expanded),
                expanded == null ? null : finding.value() + expanded,
                story.reading(
                        run.id(),
                        run.takenAt(),
                        "residual " + Say.fixed(finding.value(), decimals) + " " + finding.unit()
                                + (expanded == null ? "" : " ± " + Say.digits(expanded, 2)) + ", "
                                + finding.decision()
                                + (run.presetId().equals(story.preset().presetId()) ? "" : ", by a run of the hero")),
                run.id(),
                run.takenAt());
    }

    private String told(Agreement agreement, List<DrawingPoint> points) {
        var question = agreement.inQuestion();
        var state = points.isEmpty()
                ? "no residual was found yet"
                : "the residual was " + Say.fixed(points.get(points.size() - 1).y(), decimals) + " " + metric.unit()
                        + " last";
        return "Matched for " + agreement.operator() + " on " + Say.day(agreement.signedAt()) + ": " + state
                + (question == null ? "" : "; in question, since " + question) + ".";
    }
}
