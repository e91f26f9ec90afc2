package panelbook.app.board;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.ReadinessState;

/**
 * A history as a strip: a lane for each state, the worst at the top and each named at its side, so that height says what the
 * pattern says, too.
 *
 * @param bars one for each span
 * @param ticks days, weeks or months
 * @param summary the same in a sentence
 */
record HistoryStrip(List<Bar> bars, List<Tick> ticks, String summary) {

    static final int LEFT = 190;
    static final int WIDTH = 800;
    private static final int LANE = 26;
    private static final double THINNEST = 1.5;

    /** A span: x and width in the strip's own units, y of its lane. */
    record Bar(String x, int y, String width, ReadinessState state, String title) {}

    /** A day on the axis. */
    record Tick(String x, String label) {}

    /** Of a period that is not empty. */
    static HistoryStrip of(ReadinessHistory history, ZoneId zone, BoardWords say) {
        var whole = seconds(history.from(), history.to());
        var bars = new ArrayList<Bar>();
        for (var span : history.spans()) {
            var x = LEFT + WIDTH * seconds(history.from(), span.from()) / whole;
            var width = Math.max(THINNEST, WIDTH * seconds(span.from(), span.to()) / whole);
            bars.add(
                    new Bar(number(x), lane(span.state()) * LANE, number(width), span.state(), title(span, zone, say)));
        }
        return new HistoryStrip(bars, ticks(history, zone, say, whole), summary(history, whole));
    }

    private static int lane(ReadinessState state) {
        return ReadinessState.NOT_READY.ordinal() - state.ordinal();
    }

    private static String title(ReadinessSpan span, ZoneId zone, BoardWords say) {
        return say.word(span.state()) + " from " + say.when(span.from(), zone) + " to " + say.when(span.to(), zone);
    }

    private static List<Tick> ticks(ReadinessHistory history, ZoneId zone, BoardWords say, double whole) {
        var first = LocalDate.ofInstant(history.from(), zone);
        var days = Duration.between(history.from(), history.to()).toDays();
        var step = days <= 8 ? 1 : days <= 16 ? 2 : days <= 70 ? 7 : days <= 220 ? 30 : 91;
        var ticks = new ArrayList<Tick>();
        for (var day = first; ; day = day.plusDays(step)) {
            var start = day.atStartOfDay(zone).toInstant();
            if (!start.isBefore(history.to())) {
                return ticks;
            }
            if (!start.isBefore(history.from())) {
                var x = LEFT + WIDTH * seconds(history.from(), start) / whole;
                ticks.add(new Tick(number(x), say.day(day, zone)));
            }
        }
    }

    private static String summary(ReadinessHistory history, double whole) {
        if (history.spans().isEmpty()) {
            return "The room was not in the book then.";
        }
        Map<ReadinessState, Double> shares = new EnumMap<>(ReadinessState.class);
        history.spans()
                .forEach(span -> shares.merge(span.state(), seconds(span.from(), span.to()) / whole, Double::sum));
        return shares.entrySet().stream()
                        .map(share -> share.getKey().toString().replace('-', ' ') + " " + percent(share.getValue()))
                        .collect(Collectors.joining(", "))
                + "; " + (history.spans().size() - 1) + " changes.";
    }

    private static String percent(double share) {
        return share < 0.001 ? "less than 0.1 %" : String.format(Locale.ROOT, "%.1f %% of the time", 100 * share);
    }

    private static double seconds(Instant from, Instant to) {
        return Duration.between(from, to).toMillis() / 1000.0;
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }
}
