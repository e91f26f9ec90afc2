package panelbook.app.drawing;

import static panelbook.app.drawing.Svg.px;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.ForecastPoint;
import panelbook.wire.ForecastValue;
import panelbook.wire.Metric;
import panelbook.wire.PresetForecast;
import panelbook.wire.SegmentStart;

/**
 * A forecast as SVG: a chart for each figure over panel hours, with its readings, fit, band, limit and crossings, each of which is
 * named where it stands. The same forecast gives the same bytes.
 */
public final class ForecastDrawing {

    private static final int WIDTH = 920;
    private static final int CHART = 344;
    private static final int WORDS_ONLY = 70;
    private static final int TOP = 40;
    private static final double LEFT = 80;
    private static final double RIGHT = 880;
    private static final double ABOVE = 72;
    private static final double LABEL = 230;
    private static final double BELOW = 52;

    // neutral and dark: it may be opened where pictures are graded. Black 0, white 255: none is above 176
    private static final String GROUND = "#161616";
    private static final String BAND = "#2c2c2c";
    private static final String GRID = "#262626";
    private static final String AXIS = "#6a6a6a";
    private static final String WORDS = "#a0a0a0";
    private static final String MARK = "#b0b0b0";
    private static final String LIMIT = "#8a8a8a";

    private final Svg svg;
    private final double top;
    private final FigureForecast figure;
    private final Scale hours;
    private final Scale values;
    private final List<ForecastPoint> points;

    private ForecastDrawing(Svg svg, double top, FigureForecast figure) {
        this.svg = svg;
        this.top = top;
        this.figure = figure;
        this.points = points(figure);
        this.hours = Scale.of(
                Stream.of(
                                points.stream().map(ForecastPoint::panelHours),
                                figure.fit().stream().map(ForecastValue::panelHours),
                                crossings(figure))
                        .flatMap(part -> part)
                        .mapToDouble(Double::doubleValue),
                8,
                LEFT,
                RIGHT);
        this.values = Scale.of(
                DoubleStream.concat(
                        points.stream().mapToDouble(ForecastPoint::value),
                        DoubleStream.concat(
                                figure.fit().stream().flatMapToDouble(fit -> DoubleStream.of(fit.low(), fit.high())),
                                Stream.of(figure.limit(), figure.reference())
                                        .filter(ForecastDrawing::there)
                                        .mapToDouble(Double::doubleValue))),
                5,
                top + CHART - BELOW,
                top + ABOVE);
    }

    private static boolean there(@Nullable Double value) {
        return value != null;
    }

    private static Stream<Double> crossings(FigureForecast figure) {
        return Stream.of(figure.expected(), figure.earliest())
                .flatMap(crossing -> crossing == null ? Stream.empty() : Stream.of(crossing.panelHours()));
    }

    /** The readings of the counter that is in force; those of another counter have no place on its axis. */
    private static List<ForecastPoint> points(FigureForecast figure) {
        return anotherCounterBefore(figure)
                ? figure.points().stream().filter(ForecastPoint::used).toList()
                : figure.points();
    }

    private static boolean anotherCounterBefore(FigureForecast figure) {
        var start = figure.segmentStart();
        return start == SegmentStart.PANEL_SWAP
                || start == SegmentStart.COUNTER_RESET
                || start == SegmentStart.COUNTER_JUMP;
    }

    /** Draws a forecast. */
    public static String svg(PresetForecast forecast) {
        var figures = forecast.figures();
        var height = TOP + figures.stream().mapToInt(ForecastDrawing::height).sum();
        var svg = new Svg(
                WIDTH,
                height,
                "Forecast of " + forecast.preset(),
                figures.stream()
                        .map(figure -> name(figure) + ". " + figure.explanation())
                        .collect(Collectors.joining(" ")));
        svg.mark("rect", "width", WIDTH, "height", height, "fill", GROUND);
        svg.text(LEFT, 28, "start", MARK, forecast.preset() + ", as of " + day(forecast.at()));
        var top = TOP;
        for (var figure : figures) {
            draw(svg, top, figure);
            top += height(figure);
        }
        return svg.end();
    }

    private static int height(FigureForecast figure) {
        return isEmpty(figure) ? WORDS_ONLY : CHART;
    }

    private static boolean isEmpty(FigureForecast figure) {
        return points(figure).isEmpty() && figure.fit().isEmpty();
    }

    private static void draw(Svg svg, double top, FigureForecast figure) {
        svg.text(LEFT, top + 18, "start", MARK, name(figure) + ", " + figure.unit());
        if (isEmpty(figure)) {
            svg.text(LEFT, top + 44, "start", WORDS, figure.explanation());
            return;
        }
        new ForecastDrawing(svg, top, figure).draw();
    }

    private static String name(FigureForecast figure) {
        return figure.metric() == Metric.OWN_DRIFT_WHITE ? "White, distance from where it was left" : "Peak luminance";
    }

    private void draw() {
        axes();
        band();
        level(figure.reference(), "as it was left", "1 5");
        level(figure.limit(), "limit", "8 4");
        fit();
        start();
        crossing(figure.earliest(), "earliest at 90 %", "4 4", top + ABOVE - 20, true);
        crossing(figure.expected(), "expected", "none", top + ABOVE - 36, false);
        points.forEach(this::point);
        if (points.size() < figure.points().size()) {
            svg.text(
                    RIGHT,
                    top + 18,
                    "end",
                    WORDS,
                    figure.points().size() - points.size() + " readings of the counter before are not drawn");
        }
    }

    private void axes() {
        for (var tick : values.ticks()) {
            line(LEFT, values.at(tick), RIGHT, values.at(tick), GRID, "none");
            svg.text(LEFT - 8, values.at(tick) + 4, "end", WORDS, values.label(tick));
        }
        var floor = values.from();
        for (var tick : hours.ticks()) {
            line(hours.at(tick), floor, hours.at(tick), floor + 5, AXIS, "none");
            svg.text(hours.at(tick), floor + 20, "middle", WORDS, hours.label(tick));
        }
        line(LEFT, floor, RIGHT, floor, AXIS, "none");
        line(LEFT, floor, LEFT, values.to(), AXIS, "none");
        svg.text((LEFT + RIGHT) / 2, floor + 38, "middle", WORDS, "panel hours, h");
    }

    private void band() {
        if (figure.fit().isEmpty()) {
            return;
        }
        var there = path(figure.fit(), ForecastValue::high);
        var back = figure.fit().stream()
                .sorted((one, other) -> Double.compare(other.panelHours(), one.panelHours()))
                .map(fit -> "L" + place(fit.panelHours(), fit.low()))
                .collect(Collectors.joining());
        svg.told(
                "path",
                "band: the truth lies above its lower edge with 90 %, and below its upper edge with 90 %",
                "d",
                there + back + "Z",
                "fill",
                BAND);
        var label = figure.fit().get(figure.fit().size() - 1);
        svg.text(
                hours.at(label.panelHours()) - 4,
                Math.min(values.at(Math.min(label.low(), label.high())) + 16, values.from() - 6),
                "end",
                WORDS,
                "band, 90 % to each side");
    }

    private void fit() {
        if (figure.fit().isEmpty()) {
            return;
        }
        svg.told(
                "path",
                "trend",
                "d",
                path(figure.fit(), ForecastValue::expected),
                "fill",
                "none",
                "stroke",
                MARK,
                "stroke-width",
                "1.5");
    }

    private String path(List<ForecastValue> fit, ToDoubleFunction<ForecastValue> value) {
        return fit.stream()
                .map(one -> place(one.panelHours(), value.applyAsDouble(one)))
                .collect(Collectors.joining("L", "M", ""));
    }

    private String place(double atHours, double value) {
        return px(hours.at(atHours)) + " " + px(values.at(value));
    }

    private void level(@Nullable Double value, String name, String dashes) {
        if (value != null) {
            line(LEFT, values.at(value), RIGHT, values.at(value), LIMIT, dashes);
            svg.text(RIGHT - 4, values.at(value) - 5, "end", WORDS, name + " " + number(value));
        }
    }

    /** Where the readings begin that the trend rests on, when others lie before. */
    private void start() {
        var start = figure.segmentStart();
        var first = points.stream().filter(ForecastPoint::used).findFirst().orElse(null);
        if (start != null && start != SegmentStart.FIRST && first != null) {
            var x = hours.at(first.panelHours());
            line(x, values.from(), x, values.to(), AXIS, "2 3");
            label(x, values.from() - 8, RIGHT - x < LABEL, "since " + start + ", " + day(first.takenAt()));
        }
    }

    private void crossing(
            @Nullable ForecastCrossing crossing, String name, String dashes, double labelY, boolean toTheLeft) {
        if (crossing != null) {
            var x = hours.at(crossing.panelHours());
            line(x, values.from(), x, labelY + 4, MARK, dashes);
            label(
                    x,
                    labelY,
                    toTheLeft ? x - LEFT > LABEL : RIGHT - x < LABEL,
                    name + " " + String.format(Locale.ROOT, "%.0f h", crossing.panelHours())
                            + (crossing.at() == null ? "" : ", " + day(crossing.at())));
        }
    }

    /** Beside a line. */
    private void label(double x, double y, boolean left, String words) {
        svg.text(left ? x - 5 : x + 5, y, left ? "end" : "start", WORDS, words);
    }

    /** A disc for what the trend rests on, a ring for what lies before, a cross for what a counter contradicts. */
    private void point(ForecastPoint point) {
        var x = hours.at(point.panelHours());
        var y = values.at(point.value());
        var what = day(point.takenAt()) + ": " + number(point.value()) + " " + figure.unit() + " at "
                + String.format(Locale.ROOT, "%.0f", point.panelHours()) + " panel hours"
                + (point.doubtful() ? ", out of line with those around it" : point.used() ? "" : ", not counted in");
        if (point.doubtful()) {
            svg.told(
                    "path",
                    what,
                    "d",
                    "M" + px(x - 4) + " " + px(y - 4) + "L" + px(x + 4) + " " + px(y + 4) + "M" + px(x - 4) + " "
                            + px(y + 4) + "L" + px(x + 4) + " " + px(y - 4),
                    "stroke",
                    MARK,
                    "stroke-width",
                    "1.5");
        } else {
            svg.told(
                    "circle",
                    what,
                    "cx",
                    px(x),
                    "cy",
                    px(y),
                    "r",
                    "3.5",
                    "fill",
                    point.used() ? MARK : GROUND,
                    "stroke",
                    MARK);
        }
    }

    private void line(double x1, double y1, double x2, double y2, String stroke, String dashes) {
        svg.mark(
                "line",
                "x1",
                px(x1),
                "y1",
                px(y1),
                "x2",
                px(x2),
                "y2",
                px(y2),
                "stroke",
                stroke,
                "stroke-dasharray",
                dashes);
    }

    private String number(double value) {
        return String.format(Locale.ROOT, figure.metric() == Metric.OWN_DRIFT_WHITE ? "%.4f" : "%.1f", value);
    }

    private static String day(Instant at) {
        return at.atOffset(ZoneOffset.UTC).toLocalDate().toString();
    }
}
