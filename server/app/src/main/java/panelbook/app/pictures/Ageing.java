package panelbook.app.pictures;

import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.ForecastPoint;
import panelbook.wire.Metric;
import panelbook.wire.SegmentStart;
import panelbook.wire.SeriesKind;

/** Peak luminance, or the way that white went, over panel hours, with what is tolerated and what is expected. */
final class Ageing {

    private static final double BEYOND = 0.05;

    private final Story story;
    private final FigureForecast figure;
    private final boolean luminance;
    private final List<ForecastPoint> points;
    private final Sketch sketch;

    private Ageing(Story story, Metric metric) {
        this.story = story;
        this.figure = story.forecast().figures().stream()
                .filter(one -> one.metric() == metric)
                .findFirst()
                .orElseThrow();
        this.luminance = metric == Metric.OWN_DRIFT_LUMINANCE;
        this.points = anotherCounterBefore()
                ? figure.points().stream().filter(ForecastPoint::used).toList()
                : figure.points();
        this.sketch = new Sketch(
                story,
                luminance ? DrawingName.PEAK_LUMINANCE : DrawingName.WHITE_DRIFT,
                luminance ? "Peak luminance" : "White, distance from where it was left",
                new DrawingAxis("panel hours", "h", AxisScale.LINEAR, 0),
                luminance
                        ? new DrawingAxis("peak luminance", "cd/m²", AxisScale.LINEAR, 1)
                        : new DrawingAxis("distance", "Δu′v′", AxisScale.LINEAR, 4));
    }

    static Drawing of(Story story, Metric metric) {
        return new Ageing(story, metric).drawing();
    }

    /** Readings of another counter have no place on the axis of the one in force. */
    private boolean anotherCounterBefore() {
        var start = figure.segmentStart();
        return start == SegmentStart.PANEL_SWAP
                || start == SegmentStart.COUNTER_RESET
                || start == SegmentStart.COUNTER_JUMP;
    }

    private Drawing drawing() {
        if (!points.isEmpty() || !figure.fit().isEmpty()) {
            tolerance();
            sketch.add(
                    "band, 90 % to each side",
                    SeriesKind.BAND,
                    figure.fit().stream()
                            .map(fit -> DrawingPoint.between(
                                    fit.panelHours(),
                                    possible(fit.expected()),
                                    possible(fit.low()),
                                    possible(fit.high())))
                            .toList());
            sketch.add(
                    "trend",
                    SeriesKind.TREND,
                    figure.fit().stream()
                            .map(fit -> DrawingPoint.of(fit.panelHours(), possible(fit.expected())))
                            .toList());
            readings();
            moments();
        }
        return sketch.done(summary());
    }

    /** Neither a luminance nor a distance is below nothing. */
    private static double possible(double expected) {
        return Math.max(0, expected);
    }

    /** What is tolerated lies on both sides of what the preset was left with; the forecast names the side crossed first. */
    private void tolerance() {
        var reference = figure.reference();
        var limit = story.limit(figure.metric());
        if (reference == null) {
            return;
        }
        var from = from();
        var to = to();
        if (limit.isPresent()) {
            var high = luminance ? reference * (1 + limit.getAsDouble() / 100) : limit.getAsDouble();
            var low = luminance ? Math.max(0, reference * (1 - limit.getAsDouble() / 100)) : 0;
            sketch.add(
                    "tolerance " + (luminance ? "±" + Say.digits(limit.getAsDouble(), 2) + " %" : number(high)),
                    SeriesKind.TOLERANCE,
                    DrawingPoint.between(from, reference, low, high),
                    DrawingPoint.between(to, reference, low, high));
            limit(high, from, to);
            if (luminance) {
                limit(low, from, to);
            }
        }
        sketch.add(
                luminance ? "as it was left " + number(reference) : "as it was left",
                SeriesKind.REFERENCE,
                DrawingPoint.of(from, reference),
                DrawingPoint.of(to, reference));
    }

    private void limit(double at, double from, double to) {
        sketch.add("limit " + number(at), SeriesKind.LIMIT, DrawingPoint.of(from, at), DrawingPoint.of(to, at));
    }

    /** Where the readings begin that count. */
    private double from() {
        return points.stream()
                .filter(ForecastPoint::used)
                .mapToDouble(ForecastPoint::panelHours)
                .min()
                .orElseGet(() -> hours().min().orElse(0));
    }

    /** A little beyond the last of all. */
    private double to() {
        var range = hours().summaryStatistics();
        return range.getMax() + Math.max(1, (range.getMax() - range.getMin()) * BEYOND);
    }

    private DoubleStream hours() {
        return DoubleStream.concat(
                points.stream().mapToDouble(ForecastPoint::panelHours),
                DoubleStream.concat(
                        figure.fit().stream().mapToDouble(fit -> fit.panelHours()),
                        java.util.stream.Stream.of(figure.expected(), figure.earliest())
                                .filter(Objects::nonNull)
                                .mapToDouble(ForecastCrossing::panelHours)));
    }

    private void readings() {
        Predicate<ForecastPoint> baseline = point -> story.isBaseline(point.runId());
        Predicate<ForecastPoint> doubtful = ForecastPoint::doubtful;
        marks(
                "not counted in",
                SeriesKind.LEFT_OUT,
                doubtful.or(baseline).or(ForecastPoint::used).negate());
        marks("readings", SeriesKind.READINGS, doubtful.or(baseline).negate().and(ForecastPoint::used));
        marks("out of line: look again", SeriesKind.DOUBTFUL, doubtful);
        marks("", SeriesKind.BASELINES, baseline.and(doubtful.negate()));
    }

    private void marks(String name, SeriesKind kind, Predicate<ForecastPoint> which) {
        sketch.add(name, kind, points.stream().filter(which).map(this::mark).toList());
    }

    private DrawingPoint mark(ForecastPoint point) {
        var expanded = luminance
                ? story.runs().stream()
                        .filter(run -> run.id().equals(point.runId()))
                        .findFirst()
                        .map(run -> Story.expanded(run, point.value()))
                        .orElse(null)
                : null;
        return DrawingPoint.reading(
                point.panelHours(),
                point.value(),
                expanded,
                story.reading(
                        point.runId(),
                        point.takenAt(),
                        number(point.value()) + (luminance ? " cd/m²" : " u′v′")
                                + (expanded == null ? "" : " ± " + Say.digits(expanded, 2)) + " at "
                                + Say.fixed(point.panelHours(), 0) + " panel hours"
                                + (point.doubtful()
                                        ? ", out of line with those around it"
                                        : point.used() ? "" : ", not counted in")),
                point.runId(),
                point.takenAt());
    }

    /** Of the baselines only the one in force has a line and a name; those before are told by the shape of their marks. */
    private void moments() {
        points.stream()
                .filter(point -> story.isBaseline(point.runId()))
                .reduce((earlier, later) -> later)
                .ifPresent(point -> sketch.add(
                        "baseline " + Say.day(point.takenAt()),
                        SeriesKind.MOMENT,
                        DrawingPoint.mark(point.panelHours(), point.value(), "baseline " + Say.day(point.takenAt()))));
        start();
        crossing(figure.earliest(), "earliest at 90 %");
        crossing(figure.expected(), "expected");
    }

    /** Where the readings begin that the trend rests on, when others lie before and no baseline says so. */
    private void start() {
        var start = figure.segmentStart();
        points.stream()
                .filter(ForecastPoint::used)
                .findFirst()
                .filter(first -> start != null
                        && start != SegmentStart.FIRST
                        && !(start == SegmentStart.RECALIBRATION && story.isBaseline(first.runId())))
                .ifPresent(first -> sketch.add(
                        "since " + start + ", " + Say.day(first.takenAt()),
                        SeriesKind.MOMENT,
                        DrawingPoint.mark(first.panelHours(), first.value(), "since " + start)));
    }

    private void crossing(@Nullable ForecastCrossing crossing, String name) {
        var limit = figure.limit();
        if (crossing != null && limit != null) {
            var words = name + " " + Say.fixed(crossing.panelHours(), 0) + " h"
                    + (crossing.at() == null ? "" : ", " + Say.day(crossing.at()));
            sketch.add(words, SeriesKind.MOMENT, DrawingPoint.mark(crossing.panelHours(), limit, words));
        }
    }

    private String number(double value) {
        return Say.fixed(value, luminance ? 1 : 4);
    }

    private String summary() {
        var left = figure.points().size() - points.size();
        var last = points.isEmpty() ? null : points.get(points.size() - 1);
        return (last == null
                        ? ""
                        : (luminance ? "Peak luminance was " : "White was ") + number(last.value())
                                + (luminance ? " cd/m²" : " u′v′ from where it was left") + " on "
                                + Say.day(last.takenAt()) + ". ")
                + figure.explanation()
                + (left == 0 ? "" : " " + left + " readings of the counter before are not drawn.");
    }
}
