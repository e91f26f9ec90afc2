package panelbook.cli.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.ForecastPoint;
import panelbook.wire.ForecastValue;
import panelbook.wire.Metric;

/**
 * A forecast drawn in characters: readings o, the fit and the edges of its band as lines (braille patterns of Unicode, or *
 * and . in plain ASCII), the limit as a row, on it E where it is crossed at the earliest and X where as expected.
 */
final class ForecastPlot {

    private static final int ROWS = 14;
    private static final int LABEL = 9;
    private static final int NARROWEST = 40;
    private static final int WIDEST = 100;

    /** Dots of a braille cell by column and row, from the top. Source: The Unicode Standard, Braille Patterns. */
    private static final int[][] DOTS = {{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}};

    private static final int BRAILLE = 0x2800;

    private final FigureForecast figure;
    private final List<ForecastPoint> points;
    private final boolean ascii;
    private final int columns;
    private final double left;
    private final double right;
    private final double bottom;
    private final double top;
    private final char[][] cells;
    private final int[][] dots;

    private ForecastPlot(FigureForecast figure, List<ForecastPoint> points, int width, boolean ascii) {
        this.figure = figure;
        this.points = points;
        this.ascii = ascii;
        this.columns = Math.max(NARROWEST, Math.min(WIDEST, width)) - LABEL - 3;
        var hours = DoubleStream.concat(
                        points.stream().mapToDouble(ForecastPoint::panelHours),
                        figure.fit().stream().mapToDouble(ForecastValue::panelHours))
                .summaryStatistics();
        this.left = hours.getMin();
        this.right = Math.max(hours.getMax(), hours.getMin() + 1);
        var values = DoubleStream.concat(
                        DoubleStream.concat(
                                points.stream().mapToDouble(ForecastPoint::value),
                                figure.fit().stream().mapToDouble(ForecastValue::expected)),
                        Stream.ofNullable(figure.limit()).mapToDouble(limit -> limit))
                .summaryStatistics();
        var margin = Math.max((values.getMax() - values.getMin()) * 0.05, Math.abs(values.getMax()) * 1e-6 + 1e-9);
        this.bottom = values.getMin() - margin;
        this.top = values.getMax() + margin;
        this.cells = new char[ROWS][columns];
        this.dots = new int[ROWS][columns];
        for (var row : cells) {
            Arrays.fill(row, ' ');
        }
    }

    /**
     * Lines of a plot; none when nothing was measured.
     *
     * @param width of the terminal; taken as at least 40 and at most 100
     */
    static List<String> of(FigureForecast figure, int width, boolean ascii) {
        var used = figure.points().stream().filter(ForecastPoint::used).toList();
        var shown = used.isEmpty() ? figure.points() : used;
        return shown.isEmpty() ? List.of() : new ForecastPlot(figure, shown, width, ascii).lines();
    }

    private List<String> lines() {
        curve(0, '.');
        curve(1, '.');
        curve(2, '*');
        limit();
        points.forEach(point -> set(point.panelHours(), point.value(), 'o'));
        var lines = new ArrayList<String>();
        for (var row = 0; row < ROWS; row++) {
            lines.add((label(row) + " | " + text(row)).stripTrailing());
        }
        lines.add(" ".repeat(LABEL) + " +-" + "-".repeat(columns));
        lines.add(hoursLine());
        lines.add(" ".repeat(LABEL + 3) + legend());
        return lines;
    }

    private void curve(int which, char plain) {
        // twice as many places as columns: that many dots stand side by side in a braille cell
        for (var place = 0; place < 2 * columns; place++) {
            var hours = left + (right - left) * place / (2 * columns - 1);
            var value = at(hours, which);
            if (Double.isNaN(value) || value < bottom || value > top) {
                continue;
            }
            if (ascii) {
                cells[row(value)][column(hours)] = plain;
            } else if (which == 2 || place % 3 == 0) {
                var height = (int) Math.round((top - value) / (top - bottom) * (4 * ROWS - 1));
                dots[height / 4][place / 2] |= DOTS[place % 2][height % 4];
            }
        }
    }

    /** The fit between its values; NaN where there is none. */
    private double at(double hours, int which) {
        var fit = figure.fit();
        for (var i = 1; i < fit.size(); i++) {
            var before = fit.get(i - 1);
            var after = fit.get(i);
            if (hours >= before.panelHours()
                    && hours <= after.panelHours()
                    && after.panelHours() > before.panelHours()) {
                var share = (hours - before.panelHours()) / (after.panelHours() - before.panelHours());
                return value(before, which) + share * (value(after, which) - value(before, which));
            }
        }
        return Double.NaN;
    }

    private static double value(ForecastValue value, int which) {
        return which == 0 ? value.low() : which == 1 ? value.high() : value.expected();
    }

    private void limit() {
        if (figure.limit() == null) {
            return;
        }
        for (var column = 0; column < columns; column++) {
            var cell = cells[row(figure.limit())];
            cell[column] = cell[column] == ' ' ? '-' : cell[column];
        }
        mark(figure.earliest(), 'E');
        mark(figure.expected(), 'X');
    }

    private void mark(@org.jspecify.annotations.Nullable ForecastCrossing crossing, char mark) {
        if (crossing != null && figure.limit() != null && crossing.panelHours() <= right) {
            set(crossing.panelHours(), figure.limit(), mark);
        }
    }

    private void set(double hours, double value, char mark) {
        cells[row(value)][column(hours)] = mark;
    }

    private int row(double value) {
        return clamp((int) Math.round((top - value) / (top - bottom) * (4 * ROWS - 1)) / 4, ROWS);
    }

    private int column(double hours) {
        return clamp((int) Math.round((hours - left) / (right - left) * (2 * columns - 1)) / 2, columns);
    }

    private static int clamp(int place, int places) {
        return Math.max(0, Math.min(places - 1, place));
    }

    private String text(int row) {
        var line = new StringBuilder();
        for (var column = 0; column < columns; column++) {
            var cell = cells[row][column];
            var free = cell == ' ' || cell == '-';
            line.append(free && dots[row][column] != 0 ? (char) (BRAILLE + dots[row][column]) : cell);
        }
        return line.toString();
    }

    private String label(int row) {
        var limit = figure.limit();
        if (limit != null && row == row(limit)) {
            return padded(number(limit));
        }
        return row == 0 ? padded(number(top)) : row == ROWS - 1 ? padded(number(bottom)) : " ".repeat(LABEL);
    }

    private String hoursLine() {
        var from = String.format(Locale.ROOT, "%.0f h", left);
        var to = String.format(Locale.ROOT, "%.0f h", right);
        return " ".repeat(LABEL + 3) + from + " ".repeat(Math.max(1, columns - from.length() - to.length())) + to;
    }

    private String legend() {
        var line = figure.fit().isEmpty()
                ? ""
                : ascii ? ", * fit, . its band at 90 %" : ", full line: fit, dotted: its band at 90 %";
        var marks = (figure.limit() == null ? "" : ", - limit")
                + (figure.earliest() == null ? "" : ", E earliest at 90 %")
                + (figure.expected() == null ? "" : ", X expected");
        return "o reading" + line + marks;
    }

    private String number(double value) {
        return String.format(Locale.ROOT, figure.metric() == Metric.OWN_DRIFT_WHITE ? "%.4f" : "%.1f", value);
    }

    private static String padded(String text) {
        return " ".repeat(Math.max(0, LABEL - text.length())) + text;
    }
}
