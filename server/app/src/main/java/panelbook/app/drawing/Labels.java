package panelbook.app.drawing;

import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.SeriesKind;

/**
 * Writes the name of each series beside it, in place of a legend: where it covers no other label, and as little of marks and lines
 * as can be. Of places equally good the first is taken, so that the same drawing looks the same.
 */
final class Labels {

    private static final double HEIGHT = 14;
    private static final double ASCENT = 11;
    private static final double GAP = 6;
    private static final double ROW = 16;
    private static final int ROWS = 5;
    private static final int PARTS = 16;
    private static final double STEP = 6;
    private static final double REACH = 5;
    private static final double OUTSIDE = 1e6;
    private static final double ON_LABEL = 50;
    private static final double ON_MARK = 12;
    private static final double ON_LINE = 3;

    private final Canvas canvas;
    private final Rectangle2D area;
    private final Rectangle2D allowed;
    private final Place place;
    private final List<Rectangle2D> labels = new ArrayList<>();
    private final List<Point2D> marks = new ArrayList<>();
    private final List<Point2D> lines = new ArrayList<>();

    /** Where a point lies, px. */
    interface Place {
        Point2D of(double x, double y);
    }

    /**
     * @param area of the chart
     * @param allowed where labels may stand besides those above the chart
     */
    Labels(Canvas canvas, Rectangle2D area, Rectangle2D allowed, Place place) {
        this.canvas = canvas;
        this.area = area;
        this.allowed = allowed;
        this.place = place;
    }

    /** How much room the names of moments take above a chart, px: a row each. */
    static double above(List<DrawingSeries> all) {
        return ROW * named(all, SeriesKind.Form.MOMENT).count();
    }

    /** Whether there is so much to name that some of it needs room beside the chart. */
    static boolean crowded(List<DrawingSeries> all) {
        return named(all, SeriesKind.Form.MOMENT).findAny().isPresent();
    }

    private static Stream<DrawingSeries> named(List<DrawingSeries> all, SeriesKind.Form form) {
        return all.stream()
                .filter(series -> series.kind().form() == form
                        && !series.name().isEmpty()
                        && !series.points().isEmpty());
    }

    /** Writes them; what can stand in few places only comes first. */
    void place(List<DrawingSeries> all) {
        all.forEach(this::notice);
        moments(all);
        all.stream()
                .filter(series -> series.kind().form() != SeriesKind.Form.MOMENT
                        && !series.name().isEmpty()
                        && !series.points().isEmpty())
                .sorted(Comparator.comparingInt(series -> freedom(series.kind())))
                .forEach(this::write);
    }

    /**
     * Writes the names of moments above the chart, where no data lie: the earliest in the lowest row, each to the left of its line,
     * so that no line crosses the name of another.
     */
    private void moments(List<DrawingSeries> all) {
        var y = area.getMinY();
        for (var series : named(all, SeriesKind.Form.MOMENT)
                .sorted(Comparator.comparingDouble(
                        series -> series.points().get(0).x()))
                .toList()) {
            y -= ROW;
            var x = at(series.points().get(0)).getX();
            var width = canvas.width(series.name());
            canvas.line(x, y + 2, x, area.getMinY(), canvas.greys().line());
            var left = x - GAP - width;
            write(box(left < GAP ? x + GAP : left, y, width), series);
        }
    }

    private static int freedom(SeriesKind kind) {
        return switch (kind.form()) {
            case MOMENT, MARKS -> 1;
            case REGION -> 2;
            case OUTLINE -> 3;
            case LINE -> 4;
            case BAND -> 5;
        };
    }

    private void notice(DrawingSeries series) {
        var points = series.points();
        switch (series.kind().form()) {
            case MARKS ->
                points.forEach(point -> {
                    marks.add(at(point));
                    if (point.yLow() != null && point.yHigh() != null) {
                        join(place.of(point.x(), point.yLow()), place.of(point.x(), point.yHigh()));
                    }
                });
            case LINE, OUTLINE -> {
                for (var i = 1; i < points.size(); i++) {
                    join(at(points.get(i - 1)), at(points.get(i)));
                }
                if (series.kind().form() == SeriesKind.Form.OUTLINE) {
                    join(at(points.get(points.size() - 1)), at(points.get(0)));
                }
            }
            case REGION -> points.forEach(point -> around(point).forEach(lines::add));
            case MOMENT ->
                points.forEach(point -> join(
                        new Point2D.Double(at(point).getX(), area.getMinY()),
                        new Point2D.Double(at(point).getX(), area.getMaxY())));
            case BAND -> {}
        }
    }

    private Point2D at(DrawingPoint point) {
        return place.of(point.x(), point.y());
    }

    private void join(Point2D from, Point2D to) {
        var steps = (int) Math.ceil(from.distance(to) / STEP);
        for (var i = 0; i <= steps; i++) {
            var share = steps == 0 ? 0 : (double) i / steps;
            lines.add(new Point2D.Double(
                    from.getX() + share * (to.getX() - from.getX()), from.getY() + share * (to.getY() - from.getY())));
        }
    }

    private Stream<Point2D> around(DrawingPoint point) {
        var bounds = bounds(point);
        return IntStream.range(0, 48)
                .mapToObj(i -> new Point2D.Double(
                        bounds.getCenterX() + bounds.getWidth() / 2 * Math.cos(i * Math.PI / 24),
                        bounds.getCenterY() + bounds.getHeight() / 2 * Math.sin(i * Math.PI / 24)));
    }

    private Rectangle2D bounds(DrawingPoint point) {
        var one = place.of(
                point.xLow() == null ? point.x() : point.xLow(), point.yLow() == null ? point.y() : point.yLow());
        var other = place.of(
                point.xHigh() == null ? point.x() : point.xHigh(), point.yHigh() == null ? point.y() : point.yHigh());
        var bounds = new Rectangle2D.Double();
        bounds.setFrameFromDiagonal(one, other);
        return bounds;
    }

    private void write(DrawingSeries series) {
        var width = canvas.width(series.name());
        var best = candidates(series, width)
                .min(Comparator.comparingDouble(this::cost))
                .orElseThrow();
        write(best, series);
    }

    /** On the ground, which keeps the words apart from lines; never over marks. */
    private void write(Rectangle2D best, DrawingSeries series) {
        labels.add(best);
        if (lines.stream().anyMatch(best::contains) && marks.stream().noneMatch(best::contains)) {
            canvas.ground(new Rectangle2D.Double(best.getX() - 2, best.getY(), best.getWidth() + 4, best.getHeight()));
        }
        canvas.text(
                best.getX(),
                best.getY() + ASCENT,
                series.kind().form() == SeriesKind.Form.MARKS
                        ? canvas.greys().mark()
                        : canvas.greys().words(),
                series.name());
    }

    private double cost(Rectangle2D box) {
        var outside = allowed.contains(box) ? 0 : OUTSIDE;
        var wide = new Rectangle2D.Double(
                box.getX() - REACH, box.getY() - REACH, box.getWidth() + 2 * REACH, box.getHeight() + 2 * REACH);
        var apart = new Rectangle2D.Double(box.getX() - REACH, box.getY(), box.getWidth() + 2 * REACH, box.getHeight());
        var onLabels =
                labels.stream().mapToDouble(label -> covered(apart, label)).sum() * ON_LABEL;
        var onMarks = marks.stream().filter(wide::contains).count() * ON_MARK;
        return outside
                + onLabels
                + onMarks
                + lines.stream().filter(box::contains).count() * ON_LINE;
    }

    /** px², of a label. */
    private static double covered(Rectangle2D box, Rectangle2D label) {
        var both = box.createIntersection(label);
        return both.isEmpty() ? 0 : both.getWidth() * both.getHeight();
    }

    private Stream<Rectangle2D> candidates(DrawingSeries series, double width) {
        var points = series.points();
        return switch (series.kind().form()) {
            case MARKS ->
                spread(points).flatMap(point -> Stream.concat(beside(at(point), width), offBar(point, width)));
            case LINE, OUTLINE -> along(series, width);
            case MOMENT -> Stream.of();
            case REGION -> points.stream().flatMap(point -> aroundRegion(bounds(point), width));
            case BAND -> spread(points).flatMap(point -> inside(bounds(point), width));
        };
    }

    /** Some of the points, from the last to the first. */
    private static Stream<DrawingPoint> spread(List<DrawingPoint> points) {
        var most = Math.min(points.size(), 12);
        return IntStream.range(0, most)
                .map(i -> most == 1 ? 0 : (points.size() - 1) * (most - 1 - i) / (most - 1))
                .mapToObj(points::get);
    }

    private static Stream<Rectangle2D> beside(Point2D at, double width) {
        var middle = at.getY() - HEIGHT / 2;
        return Stream.of(
                box(at.getX() + GAP + 2, middle, width),
                box(at.getX() - GAP - 2 - width, middle, width),
                box(at.getX() - width / 2, at.getY() - GAP - HEIGHT, width),
                box(at.getX() - width / 2, at.getY() + GAP, width),
                box(at.getX() + GAP, at.getY() - GAP - HEIGHT, width),
                box(at.getX() - GAP - width, at.getY() - GAP - HEIGHT, width),
                box(at.getX() + GAP, at.getY() + GAP, width),
                box(at.getX() - GAP - width, at.getY() + GAP, width),
                box(at.getX() + 3 * GAP, at.getY() - 3 * GAP - HEIGHT, width),
                box(at.getX() - 3 * GAP - width, at.getY() - 3 * GAP - HEIGHT, width),
                box(at.getX() + 3 * GAP, at.getY() + 3 * GAP, width),
                box(at.getX() - 3 * GAP - width, at.getY() + 3 * GAP, width));
    }

    private Stream<Rectangle2D> along(DrawingSeries series, double width) {
        var places = new ArrayList<Point2D>();
        var points = series.points();
        for (var i = 1; i < points.size(); i++) {
            var from = at(points.get(i - 1));
            var to = at(points.get(i));
            for (var share = 0; share <= PARTS; share++) {
                if (points.size() < PARTS || share == PARTS) {
                    places.add(new Point2D.Double(
                            from.getX() + (to.getX() - from.getX()) * share / PARTS,
                            from.getY() + (to.getY() - from.getY()) * share / PARTS));
                }
            }
        }
        if (places.isEmpty()) {
            places.add(at(points.get(0)));
        }
        return IntStream.range(0, places.size())
                .mapToObj(i -> places.get(places.size() - 1 - i))
                .flatMap(at -> Stream.concat(
                        Stream.of(
                                box(at.getX() + GAP, at.getY() - HEIGHT / 2, width),
                                box(at.getX() - GAP - width, at.getY() - HEIGHT / 2, width)),
                        IntStream.range(0, 2)
                                .mapToDouble(row -> row * ROW)
                                .boxed()
                                .flatMap(row -> Stream.of(at.getY() - 3 - HEIGHT - row, at.getY() + 3 + row))
                                .flatMap(y ->
                                        Stream.of(box(at.getX() - width, y, width), box(at.getX() + GAP, y, width)))));
    }

    /** Above and below the bar of uncertainty of a reading. */
    private Stream<Rectangle2D> offBar(DrawingPoint point, double width) {
        var bar = bounds(point);
        return Stream.of(
                        bar.getMaxY() + GAP,
                        bar.getMinY() - GAP - HEIGHT,
                        bar.getMaxY() + ROW,
                        bar.getMinY() - ROW - HEIGHT)
                .flatMap(y -> Stream.of(
                        box(bar.getCenterX() - width / 2, y, width),
                        box(bar.getMaxX(), y, width),
                        box(bar.getMinX() - width, y, width)));
    }

    private static Stream<Rectangle2D> aroundRegion(Rectangle2D region, double width) {
        return Stream.of(
                box(region.getCenterX() - width / 2, region.getMinY() - 3 - HEIGHT, width),
                box(region.getCenterX() - width / 2, region.getMaxY() + 3, width),
                box(region.getMaxX() + GAP, region.getCenterY() - HEIGHT / 2, width),
                box(region.getMinX() - GAP - width, region.getCenterY() - HEIGHT / 2, width),
                box(region.getMaxX() - region.getWidth() / 8, region.getMinY(), width),
                box(region.getMinX() + region.getWidth() / 8 - width, region.getMinY(), width),
                box(region.getMaxX() - region.getWidth() / 8, region.getMaxY() - HEIGHT, width),
                box(region.getMinX() + region.getWidth() / 8 - width, region.getMaxY() - HEIGHT, width),
                box(region.getCenterX() - width / 2, region.getMinY() + 3, width),
                box(region.getCenterX() - width / 2, region.getMaxY() - 3 - HEIGHT, width));
    }

    private static Stream<Rectangle2D> inside(Rectangle2D edge, double width) {
        return IntStream.range(0, ROWS)
                .mapToDouble(row -> row * ROW)
                .boxed()
                .flatMap(row -> Stream.of(edge.getMaxY() - 3 - HEIGHT - row, edge.getMinY() + 3 + row))
                .flatMap(y -> Stream.of(
                        box(edge.getX() - 4 - width, y, width),
                        box(edge.getX() + 4, y, width),
                        box(edge.getMaxX() + 4, y, width)));
    }

    private static Rectangle2D box(double x, double y, double width) {
        return new Rectangle2D.Double(x, y, width, HEIGHT);
    }
}
