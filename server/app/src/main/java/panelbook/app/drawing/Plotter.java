package panelbook.app.drawing;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.annotations.XYShapeAnnotation;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.renderer.xy.XYItemRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.data.xy.XYIntervalSeries;
import org.jfree.data.xy.XYIntervalSeriesCollection;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.SeriesKind;

/** Turns the series of a drawing into data sets of the chart library with the looks of their kind: shapes and dashes, no hues. */
final class Plotter {

    private static final String RUNS = "/board/runs/";
    private static final float THIN = 1;
    private static final float STRONG = 1.6f;

    private final XYPlot plot;
    private final Drawing drawing;
    private final Greys greys;
    private int sets;

    Plotter(XYPlot plot, Drawing drawing, Greys greys) {
        this.plot = plot;
        this.drawing = drawing;
        this.greys = greys;
    }

    /**
     * Adds a series over those before.
     *
     * @param ordinal which of its kind it is
     */
    void add(DrawingSeries series, int ordinal) {
        switch (series.kind().form()) {
            case MARKS -> {
                if (uncertain(series)) {
                    add(series, errors(series));
                }
                add(series, marks(series, ordinal));
            }
            case LINE, OUTLINE -> add(series, line(series.kind()));
            case BAND -> add(series, band(series.kind()));
            case REGION -> regions(series);
            case MOMENT ->
                series.points()
                        .forEach(point -> plot.addDomainMarker(
                                new ValueMarker(
                                        Chart.plotted(drawing.x(), point.x()),
                                        greys.line(),
                                        stroke(THIN, dashes(series.kind()))),
                                Layer.FOREGROUND));
        }
    }

    private void add(DrawingSeries series, XYItemRenderer renderer) {
        add(data(series), renderer);
    }

    private void add(XYIntervalSeriesCollection data, XYItemRenderer renderer) {
        plot.setDataset(sets, data);
        plot.setRenderer(sets, renderer);
        sets++;
    }

    private XYIntervalSeriesCollection data(DrawingSeries series) {
        var data = new XYIntervalSeries(series.name(), false, true);
        series.points().forEach(point -> add(data, point));
        if (series.kind().form() == SeriesKind.Form.OUTLINE) {
            add(data, series.points().get(0));
        }
        var all = new XYIntervalSeriesCollection();
        all.addSeries(data);
        return all;
    }

    private void add(XYIntervalSeries data, DrawingPoint point) {
        data.add(
                plotted(drawing.x(), point.x(), point.x()),
                plotted(drawing.x(), point.xLow(), point.x()),
                plotted(drawing.x(), point.xHigh(), point.x()),
                plotted(drawing.y(), point.y(), point.y()),
                plotted(drawing.y(), point.yLow(), point.y()),
                plotted(drawing.y(), point.yHigh(), point.y()));
    }

    private static double plotted(DrawingAxis axis, @Nullable Double value, double otherwise) {
        return Chart.plotted(axis, value == null ? otherwise : value);
    }

    /** The bars of uncertainty, below all marks of their series. */
    private XYItemRenderer errors(DrawingSeries series) {
        var renderer = new XYErrorRenderer();
        renderer.setErrorPaint(greys.axis());
        renderer.setErrorStroke(new BasicStroke(THIN));
        renderer.setDrawXError(series.points().stream().anyMatch(point -> point.xLow() != null));
        renderer.setCapLength(4);
        renderer.setSeriesLinesVisible(0, false);
        renderer.setSeriesShapesVisible(0, false);
        return renderer;
    }

    private XYItemRenderer marks(DrawingSeries series, int ordinal) {
        var looks = Looks.of(series.kind(), ordinal);
        var renderer = new XYLineAndShapeRenderer(series.kind() == SeriesKind.TRAIL, true);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, greys.axis());
        renderer.setSeriesStroke(0, new BasicStroke(THIN));
        renderer.setSeriesShape(0, looks.shape());
        renderer.setSeriesShapesFilled(0, true);
        renderer.setUseFillPaint(true);
        renderer.setSeriesFillPaint(0, looks.filled() ? greys.mark() : greys.ground());
        renderer.setDrawOutlines(!looks.filled());
        renderer.setUseOutlinePaint(true);
        renderer.setSeriesOutlinePaint(0, greys.mark());
        renderer.setSeriesOutlineStroke(0, new BasicStroke(STRONG));
        renderer.setSeriesToolTipGenerator(
                0, (data, number, item) -> series.points().get(item).words());
        renderer.setURLGenerator((data, number, item) -> link(series.points().get(item)));
        return renderer;
    }

    private static @Nullable String link(DrawingPoint point) {
        return point.runId() == null ? null : RUNS + point.runId();
    }

    private static boolean uncertain(DrawingSeries series) {
        return series.points().stream().anyMatch(point -> point.yLow() != null || point.xLow() != null);
    }

    private XYItemRenderer line(SeriesKind kind) {
        var renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, grey(kind));
        renderer.setSeriesStroke(0, stroke(strong(kind) ? STRONG : THIN, dashes(kind)));
        return renderer;
    }

    private static boolean strong(SeriesKind kind) {
        return kind == SeriesKind.TREND || kind == SeriesKind.MEASURED_OUTLINE;
    }

    private Color grey(SeriesKind kind) {
        return switch (kind) {
            case TREND, MEASURED_OUTLINE -> greys.mark();
            case SURROUNDINGS -> greys.faint();
            default -> greys.line();
        };
    }

    private XYItemRenderer band(SeriesKind kind) {
        var renderer = new DeviationRenderer(false, false);
        renderer.setAlpha(1);
        renderer.setSeriesFillPaint(0, kind == SeriesKind.TOLERANCE ? greys.tolerance() : greys.band());
        renderer.setSeriesLinesVisible(0, false);
        return renderer;
    }

    /** Ellipses are annotations of an empty data set of their own, so that they keep their place in the order. */
    private void regions(DrawingSeries series) {
        var renderer = new XYLineAndShapeRenderer(false, false);
        for (var point : series.points()) {
            var left = plotted(drawing.x(), point.xLow(), point.x());
            var bottom = plotted(drawing.y(), point.yLow(), point.y());
            var annotation = new XYShapeAnnotation(
                    new Ellipse2D.Double(
                            left,
                            bottom,
                            plotted(drawing.x(), point.xHigh(), point.x()) - left,
                            plotted(drawing.y(), point.yHigh(), point.y()) - bottom),
                    stroke(THIN, dashes(series.kind())),
                    greys.line());
            annotation.setToolTipText(point.words());
            renderer.addAnnotation(annotation, Layer.BACKGROUND);
        }
        add(new XYIntervalSeriesCollection(), renderer);
    }

    private static float @Nullable [] dashes(SeriesKind kind) {
        return switch (kind) {
            case LIMIT, TOLERANCE_REGION -> new float[] {8, 4};
            case REFERENCE -> new float[] {1, 4};
            case AIM_CURVE, AIM_OUTLINE -> new float[] {5, 3};
            case MOMENT -> new float[] {2, 3};
            default -> null;
        };
    }

    private static BasicStroke stroke(float width, float @Nullable [] dashes) {
        return dashes == null
                ? new BasicStroke(width)
                : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, dashes, 0);
    }

    /**
     * How a mark looks.
     *
     * @param filled or hollow
     */
    private record Looks(Shape shape, boolean filled) {

        private static final double R = 3.5;

        static Looks of(SeriesKind kind, int ordinal) {
            return switch (kind) {
                case BASELINES -> new Looks(diamond(R * 1.6), true);
                case LEFT_OUT -> new Looks(disc(R), false);
                case DOUBTFUL -> new Looks(cross(), true);
                case HERO -> new Looks(square(R), false);
                case AIM -> new Looks(plus(), true);
                case AGREED -> new Looks(diamond(R * 1.4), false);
                default -> reading(ordinal);
            };
        }

        /** Several series of readings are told apart by shape. */
        private static Looks reading(int ordinal) {
            return switch (ordinal % 4) {
                case 0 -> new Looks(disc(R), true);
                case 1 -> new Looks(triangle(R * 1.3), true);
                case 2 -> new Looks(square(R * 0.9), true);
                default -> new Looks(triangle(R * 1.3), false);
            };
        }

        private static Shape disc(double r) {
            return new Ellipse2D.Double(-r, -r, 2 * r, 2 * r);
        }

        private static Shape square(double r) {
            return new Rectangle2D.Double(-r, -r, 2 * r, 2 * r);
        }

        private static Shape diamond(double r) {
            return closed(0, -r, r, 0, 0, r, -r, 0);
        }

        private static Shape triangle(double r) {
            return closed(0, -r, r, 0.8 * r, -r, 0.8 * r);
        }

        private static Shape plus() {
            return closed(-1, -6, 1, -6, 1, -1, 6, -1, 6, 1, 1, 1, 1, 6, -1, 6, -1, 1, -6, 1, -6, -1, -1, -1);
        }

        private static Shape cross() {
            return closed(-5, -4, -4, -5, 0, -1, 4, -5, 5, -4, 1, 0, 5, 4, 4, 5, 0, 1, -4, 5, -5, 4, -1, 0);
        }

        private static Shape closed(double... corners) {
            var path = new Path2D.Double();
            path.moveTo(corners[0], corners[1]);
            for (var i = 2; i < corners.length; i += 2) {
                path.lineTo(corners[i], corners[i + 1]);
            }
            path.closePath();
            return path;
        }
    }
}
