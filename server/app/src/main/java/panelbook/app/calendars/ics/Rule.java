package panelbook.app.calendars.ics;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.fortuna.ical4j.model.Recur;
import org.jspecify.annotations.Nullable;

/**
 * A rule of recurrence (RFC 5545, 3.3.10) on the clock of its component. The library works out its dates; its end is looked at
 * here, since it may be written by another clock than the dates.
 *
 * @param until last moment; null when there is none
 */
record Rule(Recur<LocalDateTime> recur, @Nullable Moment until) {

    /** More times a day than any booking needs; each year is laid out at once. */
    private static final int MOST_TIMES_A_DAY = 288;

    static Rule of(ContentLine line, Zones zones) throws UnreadableCalendarException {
        var parts = new ArrayList<String>();
        Moment until = null;
        var times = 1;
        for (var part : line.value().strip().toUpperCase(Locale.ROOT).split(";", -1)) {
            if (part.startsWith("UNTIL=")) {
                until = zones.moment(line, part.substring("UNTIL=".length()));
            } else if (!part.isEmpty()) {
                check(line, part);
                parts.add(eachOnce(part));
            }
            if (part.startsWith("BYHOUR=") || part.startsWith("BYMINUTE=") || part.startsWith("BYSECOND=")) {
                times *= part.split(",", -1).length;
            }
        }
        if (times > MOST_TIMES_A_DAY) {
            throw new UnreadableCalendarException(line.number(), "A rule may have at most 288 times a day.");
        }
        if (parts.stream().noneMatch(part -> part.startsWith("WKST="))) {
            parts.add("WKST=MO");
        }
        return new Rule(recur(line, parts), until);
    }

    /** The library counts a date twice that the rule names twice, such as by BYDAY=WE,WE. */
    private static String eachOnce(String part) {
        var values = part.indexOf('=') + 1;
        return part.substring(0, values)
                + Arrays.stream(part.substring(values).split(",", -1))
                        .distinct()
                        .collect(Collectors.joining(","));
    }

    private static void check(ContentLine line, String part) throws UnreadableCalendarException {
        if (part.equals("FREQ=SECONDLY") || part.equals("FREQ=MINUTELY")) {
            throw new UnreadableCalendarException(line.number(), "Bookings by the second or minute are not read.");
        }
        if (part.startsWith("RSCALE=")) {
            throw new UnreadableCalendarException(line.number(), "Rules of other calendars (RSCALE) are not read.");
        }
    }

    private static Recur<LocalDateTime> recur(ContentLine line, List<String> parts) throws UnreadableCalendarException {
        try {
            return new Recur<>(String.join(";", parts), false);
        } catch (RuntimeException unreadable) {
            // the library has no one exception for a rule that it cannot read, and its words quote the rule
            throw new UnreadableCalendarException(
                    line.number(), "This rule of recurrence cannot be read (RFC 5545, 3.3.10).");
        }
    }

    /**
     * Its dates by the clock of {@code zone}, not always in order.
     *
     * @param seed first date of the component
     * @param from dates before may be left out
     * @param to dates after are left out
     */
    Stream<LocalDateTime> dates(LocalDateTime seed, Zone zone, LocalDateTime from, LocalDateTime to) {
        return recur.getDatesAsStream(seed, from, to, -1).filter(date -> until == null || !ended(until, date, zone));
    }

    private static boolean ended(Moment until, LocalDateTime date, Zone zone) {
        if (until.day()) {
            return date.toLocalDate().isAfter(until.time().toLocalDate());
        }
        return until.floating()
                ? date.isAfter(until.time())
                : zone.instant(date).isAfter(until.instant());
    }

    static List<Rule> all(Component component, Zones zones) throws UnreadableCalendarException {
        var rules = new ArrayList<Rule>();
        for (var line : component.all("RRULE")) {
            rules.add(of(line, zones));
        }
        return rules;
    }
}
