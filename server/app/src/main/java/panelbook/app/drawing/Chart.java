package panelbook.app.drawing;

import java.awt.BasicStroke;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jfree.chart.ChartRenderingInfo;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.entity.ChartEntity;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.data.Range;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.SeriesKind;

/** One chart: axes, what is plotted between them, and the words beside it. The chart library lays it out and paints it. */
final class Chart {

    private static final int PLAIN_HEIGHT = 360;
    private static final int EQUAL_HEIGHT = 480;
    private static final double LEFT = 64;
    private static final double RIGHT = Canvas.WIDTH - 36;
    private static final double BESIDE = 120;
    private static final double ABOVE = 58;
    private static final double BELOW = 48;
    private static final double LINE = 18;
    private static final double MARGIN = 16;
    private static final int TICKS_ACROSS = 6;
    private static final int TICKS_UP = 5;
    private static final double LEAST_BETWEEN_TICKS = 60;
    private static final double AIR = 0.03;

    private final Canvas canvas;
    private final Drawing drawing;
    private final Rectangle2D area;
    private final Rectangle2D withBeside;
    private final List<DrawingSeries> inOrder;
    private final NumberAxis across;
    private final NumberAxis up;
    private final XYPlot plot;

    private Chart(Canvas canvas, Drawing drawing, int top) {
        this.canvas = canvas;
        this.drawing = drawing;
        var above = ABOVE + Labels.above(drawing.series());
        this.area = new Rectangle2D.Double(
                LEFT,
                top + above,
                RIGHT - LEFT - (Labels.crowded(drawing.series()) ? BESIDE : 0),
                height(drawing) - above - BELOW);
        this.withBeside =
                new Rectangle2D.Double(area.getX(), area.getY(), Canvas.WIDTH - LEFT - 4, area.getHeight() + LINE / 2);
        this.inOrder = drawing.series().stream()
                .sorted(Comparator.comparingInt(series -> depth(series.kind())))
                .toList();
        this.across = axis(drawing.x());
        this.up = axis(drawing.y());
        this.plot = new XYPlot(null, across, up, null);
    }

    /** How high the chart of a drawing is, px; lower where there is nothing but words. */
    static int height(Drawing drawing) {
        if (drawing.series().isEmpty()) {
            return (int) (ABOVE + LINE * (1 + drawing.summary().length() / 70));
        }
        return (drawing.equalScale() ? EQUAL_HEIGHT : PLAIN_HEIGHT) + (int) Labels.above(drawing.series());
    }

    /** Draws it below {@code top}. */
    static void draw(Canvas canvas, Drawing drawing, int top) {
        canvas.text(MARGIN, top + 22, canvas.greys().mark(), drawing.title() + ", " + drawing.preset());
        if (drawing.series().isEmpty()) {
            var y = top + 22 + LINE * 1.2;
            for (var line : Lines.of(canvas, drawing.summary(), RIGHT - MARGIN)) {
                canvas.text(MARGIN, y, canvas.greys().words(), line);
                y += LINE;
            }
        } else {
            new Chart(canvas, drawing, top).draw();
        }
    }

    private static int depth(SeriesKind kind) {
        return switch (kind.form()) {
            case BAND -> kind == SeriesKind.TOLERANCE ? 0 : 1;
            case REGION -> 2;
            case LINE, MOMENT -> 3;
            case OUTLINE -> 4;
            case MARKS -> 5;
        };
    }

    private NumberAxis axis(DrawingAxis of) {
        var axis = new NumberAxis(null);
        axis.setTickLabelFont(Fonts.PLAIN);
        axis.setLabelFont(Fonts.PLAIN);
        axis.setTickLabelPaint(canvas.greys().words());
        axis.setLabelPaint(canvas.greys().words());
        axis.setAxisLinePaint(canvas.greys().axis());
        axis.setTickMarkPaint(canvas.greys().axis());
        axis.setTickMarkStroke(new BasicStroke(1));
        axis.setAxisLineStroke(new BasicStroke(1));
        axis.setAutoRange(false);
        axis.setTickLabelInsets(new RectangleInsets(3, 4, 3, 4));
        axis.setMinorTickMarksVisible(false);
        return axis;
    }

    private void draw() {
        ranges();
        plot.setBackgroundPaint(null);
        plot.setOutlineVisible(false);
        plot.setInsets(RectangleInsets.ZERO_INSETS);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setDomainGridlinesVisible(drawing.equalScale());
        plot.setDomainGridlinePaint(canvas.greys().grid());
        plot.setRangeGridlinePaint(canvas.greys().grid());
        plot.setDomainGridlineStroke(new BasicStroke(1));
        plot.setRangeGridlineStroke(new BasicStroke(1));
        plot.setDomainZeroBaselineVisible(false);
        plot.setRangeZeroBaselineVisible(false);
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
        plot.setFixedRangeAxisSpace(space(LEFT, RectangleEdge.LEFT));
        plot.setFixedDomainAxisSpace(space(BELOW, RectangleEdge.BOTTOM));
        var plotter = new Plotter(plot, drawing, canvas.greys());
        inOrder.forEach(series -> plotter.add(series, ordinal(series)));
        var chart = new JFreeChart(null, Fonts.PLAIN, plot, false);
        chart.setBackgroundPaint(null);
        chart.setPadding(RectangleInsets.ZERO_INSETS);
        var info = new ChartRenderingInfo();
        chart.draw(
                canvas.graphics(),
                new Rectangle2D.Double(0, area.getY(), area.getMaxX(), area.getHeight() + BELOW),
                info);
        names();
        new Labels(canvas, area, withBeside, this::place).place(inOrder);
        for (var entity : info.getEntityCollection().getEntities()) {
            mark((ChartEntity) entity);
        }
    }

    private static AxisSpace space(double length, RectangleEdge edge) {
        var space = new AxisSpace();
        space.add(length, edge);
        return space;
    }

    /** Which of its kind a series is: later ones get another shape. */
    private int ordinal(DrawingSeries series) {
        return (int) inOrder.stream()
                .takeWhile(other -> other != series)
                .filter(other -> other.kind() == series.kind())
                .count();
    }

    private void names() {
        canvas.text(
                MARGIN,
                area.getY() - 14 - Labels.above(drawing.series()),
                canvas.greys().words(),
                name(drawing.y()));
        var words = name(drawing.x());
        canvas.text(
                area.getMaxX() - canvas.width(words),
                area.getMaxY() + 38,
                canvas.greys().words(),
                words);
    }

    private static String name(DrawingAxis axis) {
        return axis.unit().isEmpty() ? axis.name() : axis.name() + ", " + axis.unit();
    }

    private void mark(ChartEntity entity) {
        var words = entity.getToolTipText();
        if (words != null) {
            canvas.mark(new Mark(entity.getArea().getBounds2D(), words, entity.getURLText()));
        }
    }

    private void ranges() {
        var x = range(drawing.x(), points().flatMap(p -> Stream.of(p.x(), p.xLow(), p.xHigh())));
        var y = range(
                drawing.y(),
                drawing.series().stream()
                        .filter(series -> series.kind().form() != SeriesKind.Form.MOMENT)
                        .flatMap(series -> series.points().stream())
                        .flatMap(p -> Stream.of(p.y(), p.yLow(), p.yHigh())));
        if (drawing.equalScale()) {
            var perPixel = Math.max(x.getLength() / area.getWidth(), y.getLength() / area.getHeight()) * (1 + 2 * AIR);
            var step = Ticks.round(perPixel * LEAST_BETWEEN_TICKS);
            Ticks.every(across, around(x, perPixel * area.getWidth()), step);
            Ticks.every(up, around(y, perPixel * area.getHeight()), step);
        } else {
            Ticks.within(across, drawing.x().scale(), around(x, x.getLength() * (1 + 2 * AIR)), ticksAcross());
            Ticks.around(up, drawing.y().scale(), offEdges(y), TICKS_UP);
        }
    }

    /** Widened where a limit is the outermost of all, so that its line does not lie on the edge. */
    private Range offEdges(Range range) {
        if (drawing.y().scale() != AxisScale.LINEAR) {
            return range;
        }
        var limits = drawing.series().stream()
                .filter(series -> series.kind() == SeriesKind.LIMIT)
                .flatMap(series -> series.points().stream())
                .mapToDouble(DrawingPoint::y)
                .summaryStatistics();
        var air = range.getLength() * AIR;
        var low = range.getLowerBound();
        return new Range(
                limits.getMin() <= low && low > air ? low - air : low,
                Math.max(range.getUpperBound(), limits.getMax() + air));
    }

    /** Dates are wide. */
    private int ticksAcross() {
        return drawing.x().scale() == AxisScale.TIME
                ? (int) (TICKS_ACROSS * area.getWidth() / (RIGHT - LEFT))
                : TICKS_ACROSS;
    }

    private Stream<DrawingPoint> points() {
        return drawing.series().stream().flatMap(series -> series.points().stream());
    }

    private static Range range(DrawingAxis axis, Stream<Double> values) {
        var range = values.filter(value -> value != null)
                .mapToDouble(value -> plotted(axis, value))
                .filter(Double::isFinite)
                .summaryStatistics();
        var low = range.getMin();
        var high = range.getMax();
        if (high - low > Math.abs(high) * 1e-9) {
            return new Range(low, high);
        }
        var around = axis.scale() == AxisScale.LINEAR && high != 0 ? Math.abs(high) * 0.01 : 1;
        return new Range(low - around, high + around);
    }

    /** The range in the middle of one of that length, which reaches below zero only if the range does. */
    private static Range around(Range range, double length) {
        var low = range.getCentralValue() - length / 2;
        var from = range.getLowerBound() >= 0 ? Math.max(0, low) : low;
        return new Range(from, from + length);
    }

    /** A value as it is plotted. */
    static double plotted(DrawingAxis axis, double value) {
        return axis.scale() == AxisScale.LOGARITHMIC ? Math.log10(value) : value;
    }

    /** Where a point lies, px. */
    private Point2D place(double x, double y) {
        return new Point2D.Double(
                across.valueToJava2D(plotted(drawing.x(), x), area, RectangleEdge.BOTTOM),
                up.valueToJava2D(plotted(drawing.y(), y), area, RectangleEdge.LEFT));
    }
}
