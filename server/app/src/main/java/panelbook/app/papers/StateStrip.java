package panelbook.app.papers;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.ReadinessState;

/**
 * The readiness of a room over time as a strip for paper, SVG: the worse the state, the higher and darker it stands, so that it is told
 * apart without colour and on any printer.
 */
public final class StateStrip {

    private static final int WIDTH = 680;
    private static final int HEIGHT = 74;
    private static final double LEFT = 112;
    private static final double RIGHT = WIDTH - 14.0;
    private static final double BASE = 54;
    private static final double STEP = 16;

    private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM", Locale.ENGLISH);
    private static final DateTimeFormatter MONTH = DateTimeFormatter.ofPattern("MMM yyyy", Locale.ENGLISH);

    private final Instant from;
    private final Instant to;
    private final ZoneId zone;
    private final StringBuilder svg = new StringBuilder();

    private StateStrip(Instant from, Instant to, ZoneId zone) {
        this.from = from;
        this.to = to;
        this.zone = zone;
    }

    /**
     * A strip.
     *
     * @param spans one after the other, within {@code from} and {@code to}
     * @param to exclusive, later than {@code from}
     */
    public static String svg(List<ReadinessSpan> spans, Instant from, Instant to, ZoneId zone) {
        return new StateStrip(from, to, zone).draw(spans);
    }

    private String draw(List<ReadinessSpan> spans) {
        var name = "Readiness as a strip; the table below says the same in words";
        svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\" viewBox=\"0 0 %d %d\""
                .formatted(WIDTH, HEIGHT, WIDTH, HEIGHT));
        svg.append(
                " role=\"img\" alt=\"%s\" title=\"%s\" font-family=\"Paper\" font-size=\"9\">".formatted(name, name));
        for (var state : ReadinessState.values()) {
            var y = BASE - height(state);
            line(LEFT, y, RIGHT, y, "#bbb", 0.4);
            text(LEFT - 6, y + 3, "end", state.toString().replace('-', ' '));
        }
        spans.forEach(this::span);
        line(LEFT, BASE, RIGHT, BASE, "#000", 0.8);
        ticks();
        return svg.append("</svg>").toString();
    }

    private void span(ReadinessSpan span) {
        var x = x(span.from());
        var fill = switch (span.state()) {
            case READY -> "#ddd";
            case READY_WITH_REMARKS -> "#999";
            case NOT_READY -> "#222";
        };
        add(
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"%s\" stroke=\"#000\" stroke-width=\"0.4\"></rect>",
                x, BASE - height(span.state()), Math.max(0.6, x(span.to()) - x), height(span.state()), fill);
    }

    private static double height(ReadinessState state) {
        return 4 + STEP * state.ordinal();
    }

    private void ticks() {
        var period = Duration.between(from, to);
        var start = from.atZone(zone);
        if (period.compareTo(Duration.ofDays(2)) <= 0) {
            ticks(every(start.truncatedTo(ChronoUnit.DAYS), 6, ChronoUnit.HOURS), HOUR);
        } else if (period.compareTo(Duration.ofDays(12)) <= 0) {
            ticks(every(start.truncatedTo(ChronoUnit.DAYS), 1, ChronoUnit.DAYS), DAY);
        } else if (period.compareTo(Duration.ofDays(75)) <= 0) {
            ticks(every(start.truncatedTo(ChronoUnit.DAYS), 7, ChronoUnit.DAYS), DAY);
        } else {
            var months = 1 + (int) (period.toDays() / 300);
            ticks(every(start.truncatedTo(ChronoUnit.DAYS).withDayOfMonth(1), months, ChronoUnit.MONTHS), MONTH);
        }
    }

    private List<ZonedDateTime> every(ZonedDateTime first, int amount, ChronoUnit unit) {
        var all = new ArrayList<ZonedDateTime>();
        for (var n = 0L; ; n += amount) {
            var at = first.plus(n, unit);
            if (at.toInstant().isAfter(to)) {
                return all;
            }
            if (!at.toInstant().isBefore(from)) {
                all.add(at);
            }
        }
    }

    private void ticks(List<ZonedDateTime> at, DateTimeFormatter words) {
        for (var tick : at) {
            var x = x(tick.toInstant());
            line(x, BASE, x, BASE + 4, "#000", 0.6);
            text(x, BASE + 14, "middle", words.format(tick));
        }
    }

    private double x(Instant at) {
        return LEFT
                + (RIGHT - LEFT)
                        * Duration.between(from, at).toMillis()
                        / Math.max(1, Duration.between(from, to).toMillis());
    }

    private void line(double x1, double y1, double x2, double y2, String stroke, double width) {
        add(
                "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\" stroke-width=\"%.1f\"></line>",
                x1, y1, x2, y2, stroke, width);
    }

    private void text(double x, double y, String anchor, String words) {
        add("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"#000\">%s</text>", x, y, anchor, words);
    }

    private void add(String element, Object... values) {
        svg.append(String.format(Locale.ROOT, element, values));
    }
}
