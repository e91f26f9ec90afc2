package panelbook.app.pictures;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.SeriesKind;

/**
 * A drawing as a table, for those who do not see it and those who want the numbers. Lines and bands are told at a few places.
 *
 * @param x name of the axis with its unit
 * @param y name of the axis with its unit
 * @param timed whether x is the time, which stands in a column of its own
 */
public record DrawingTable(String x, String y, boolean timed, List<Row> rows) {

    private static final int PLACES = 5;

    /**
     * A point.
     *
     * @param what the series
     * @param at when it was taken; null when it was not, or has no time
     * @param between bounds of y, or of x and y; empty when there are none
     * @param runId null when it was not read from a run
     */
    public record Row(
            String what,
            @Nullable Instant at,
            String x,
            String y,
            String between,
            @Nullable UUID runId) {}

    /** A drawing as a table. */
    public static DrawingTable of(Drawing drawing) {
        return new DrawingTable(
                name(drawing.x()),
                name(drawing.y()),
                drawing.x().scale() == AxisScale.TIME,
                drawing.series().stream()
                        .flatMap(series -> rows(drawing, series))
                        .toList());
    }

    private static String name(DrawingAxis axis) {
        return axis.unit().isEmpty() ? axis.name() : axis.name() + ", " + axis.unit();
    }

    private static Stream<Row> rows(Drawing drawing, DrawingSeries series) {
        var points = series.points();
        if (series.kind() == SeriesKind.SURROUNDINGS || points.isEmpty()) {
            return Stream.empty();
        }
        var told = switch (series.kind().form()) {
            case LINE, BAND -> level(series) ? Stream.of(points.get(0)) : spread(points);
            default -> points.stream();
        };
        return told.map(point -> row(drawing, series, point));
    }

    /** Whether it is the same all along. */
    private static boolean level(DrawingSeries series) {
        var first = series.points().get(0);
        return series.points().size() == 2 && series.points().get(1).y() == first.y();
    }

    private static Stream<DrawingPoint> spread(List<DrawingPoint> points) {
        var most = Math.min(PLACES, points.size());
        return IntStream.range(0, most).mapToObj(i -> points.get(most == 1 ? 0 : i * (points.size() - 1) / (most - 1)));
    }

    private static Row row(Drawing drawing, DrawingSeries series, DrawingPoint point) {
        return new Row(
                series.name().isEmpty() ? series.kind().toString().replace('-', ' ') : series.name(),
                point.at(),
                level(series) ? "all" : number(drawing.x(), point.x()),
                number(drawing.y(), point.y()),
                between(drawing, point),
                point.runId());
    }

    private static String between(Drawing drawing, DrawingPoint point) {
        var ofY = between(drawing.y(), point.yLow(), point.yHigh());
        var ofX = between(drawing.x(), point.xLow(), point.xHigh());
        return ofX.isEmpty()
                ? ofY
                : drawing.x().name() + " " + ofX + ", " + drawing.y().name() + " " + ofY;
    }

    private static String between(DrawingAxis axis, @Nullable Double low, @Nullable Double high) {
        if (low == null && high == null) {
            return "";
        }
        return (low == null ? "" : number(axis, low)) + " to " + (high == null ? "" : number(axis, high));
    }

    private static String number(DrawingAxis axis, double value) {
        return switch (axis.scale()) {
            case LINEAR -> Say.fixed(value, axis.decimals());
            case LOGARITHMIC -> Say.digits(value, 4);
            case TIME ->
                java.time.LocalDate.ofEpochDay((long) Math.floor(value)).toString();
        };
    }
}
