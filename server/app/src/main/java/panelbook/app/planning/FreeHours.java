package panelbook.app.planning;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import panelbook.app.planning.plan.Span;

/** When a room is free within a plan, and how that meets the hours of calibrators. */
final class FreeHours {

    /** Visits begin at such steps of the clock after a booking. */
    private static final int STEP_MINUTES = 15;

    private FreeHours() {}

    /**
     * The spans in which nothing takes a room, in order.
     *
     * @param from nothing is free before
     * @param taken bookings and visits, in any order
     * @param holiday whether nobody works there on a day
     */
    static List<Span> of(Axis axis, Instant from, ZoneId zone, List<Stretch> taken, Predicate<LocalDate> holiday) {
        var busy = new ArrayList<>(taken);
        var last = LocalDate.ofInstant(axis.end(), zone);
        for (var day = LocalDate.ofInstant(axis.start(), zone); !day.isAfter(last); day = day.plusDays(1)) {
            if (holiday.test(day)) {
                busy.add(new Stretch(
                        day.atStartOfDay(zone).toInstant(),
                        day.plusDays(1).atStartOfDay(zone).toInstant()));
            }
        }
        busy.sort(Comparator.comparing(Stretch::from));
        var free = new ArrayList<Span>();
        var since = from.isAfter(axis.start()) ? from : axis.start();
        for (var stretch : busy) {
            add(axis, free, since, stretch.from());
            since = stretch.to().isAfter(since) ? stretch.to() : since;
        }
        add(axis, free, since, axis.end());
        return free;
    }

    private static void add(Axis axis, List<Span> free, Instant from, Instant to) {
        var first = axis.minuteAfter(from, STEP_MINUTES);
        var last = Math.min(axis.minute(to), axis.minute(axis.end()));
        if (first < last) {
            free.add(new Span(first, last));
        }
    }

    /**
     * The longest work that a room and a shift allow, min; 0 or less when none.
     *
     * @param way from home to the room, min
     */
    static int longest(List<Span> free, int warmUpMinutes, Span shift, int way) {
        return free.stream()
                .mapToInt(span -> Math.min(span.to(), shift.to() - way)
                        - Math.max(span.from() + warmUpMinutes, shift.from() + way))
                .max()
                .orElse(0);
    }
}
