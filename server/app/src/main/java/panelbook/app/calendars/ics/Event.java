package panelbook.app.calendars.ics;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * A VEVENT (RFC 5545, 3.6.1).
 *
 * @param line of its BEGIN
 * @param sequence the highest of several revisions counts
 * @param replaces start of the occurrence that this one stands for; null when it stands for itself
 * @param extras further starts with their ends
 * @param without starts left out
 * @param withoutDays days by its own clock left out
 * @param blocks whether it takes the time: it is neither cancelled nor transparent
 */
record Event(
        String uid,
        int line,
        long sequence,
        @Nullable Instant replaces,
        Moment start,
        Length length,
        List<Rule> rules,
        Map<Instant, Instant> extras,
        Set<Instant> without,
        Set<LocalDate> withoutDays,
        boolean blocks,
        @Nullable String title) {

    private static final int LONGEST_UID = 1000;
    private static final int LONGEST_TITLE = 500;
    private static final int FIRST_YEAR = 1970;

    static Event of(Component component, Zones zones) throws UnreadableCalendarException {
        var start = zones.moment(component.needed("DTSTART"));
        var length = length(component, start, zones);
        var replaces = component.first("RECURRENCE-ID");
        if (replaces.isPresent() && replaces.get().parameter("RANGE").isPresent()) {
            throw new UnreadableCalendarException(
                    replaces.get().number(),
                    "A change of all later occurrences (RANGE) is not read: let the calendar program write each.");
        }
        var rules = Rule.all(component, zones);
        if (!rules.isEmpty() && start.time().getYear() < FIRST_YEAR) {
            throw new UnreadableCalendarException(
                    component.needed("DTSTART").number(), "What recurs must start in " + FIRST_YEAR + " or later.");
        }
        var without = new HashSet<Instant>();
        var withoutDays = new HashSet<LocalDate>();
        for (var line : component.all("EXDATE")) {
            for (var value : line.values()) {
                var moment = zones.moment(line, value);
                if (moment.day() && !start.day()) {
                    withoutDays.add(moment.time().toLocalDate());
                } else {
                    without.add(moment.instant());
                }
            }
        }
        return new Event(
                uid(component.needed("UID")),
                component.line(),
                sequence(component),
                replaces.isPresent() ? zones.moment(replaces.get()).instant() : null,
                start,
                length,
                rules,
                extras(component, length, zones),
                without,
                withoutDays,
                blocks(component),
                component
                        .first("SUMMARY")
                        .map(ContentLine::text)
                        .map(Event::title)
                        .orElse(null));
    }

    private static String uid(ContentLine line) throws UnreadableCalendarException {
        var uid = line.text();
        if (uid.isEmpty() || uid.length() > LONGEST_UID) {
            throw new UnreadableCalendarException(
                    line.number(), "A UID must have 1 to " + LONGEST_UID + " characters.");
        }
        return uid;
    }

    private static @Nullable String title(String summary) {
        if (summary.isEmpty()) {
            return null;
        }
        var length = summary.codePointCount(0, summary.length());
        return length <= LONGEST_TITLE ? summary : summary.substring(0, summary.offsetByCodePoints(0, LONGEST_TITLE));
    }

    private static long sequence(Component component) throws UnreadableCalendarException {
        var line = component.first("SEQUENCE");
        if (line.isEmpty()) {
            return 0;
        }
        try {
            return Long.parseLong(line.get().value().strip());
        } catch (NumberFormatException noNumber) {
            throw new UnreadableCalendarException(line.get().number(), "SEQUENCE must be a whole number.");
        }
    }

    private static Length length(Component component, Moment start, Zones zones) throws UnreadableCalendarException {
        var end = component.first("DTEND");
        if (end.isPresent()) {
            return until(start, end.get(), zones.moment(end.get()));
        }
        var duration = component.first("DURATION");
        if (duration.isPresent()) {
            return Length.of(duration.get(), duration.get().value());
        }
        return start.day() ? Length.days(1) : Length.exact(Duration.ZERO);
    }

    private static Length until(Moment start, ContentLine line, Moment end) throws UnreadableCalendarException {
        if (start.day() != end.day()) {
            throw new UnreadableCalendarException(
                    line.number(), "DTSTART and DTEND must both be days or both be times.");
        }
        if (end.instant().isBefore(start.instant())) {
            throw new UnreadableCalendarException(line.number(), "The event ends before it starts.");
        }
        if (!start.day()) {
            return Length.exact(Duration.between(start.instant(), end.instant()));
        }
        // some programs write the first day as the last
        return Length.days(Math.max(
                1,
                end.time().toLocalDate().toEpochDay()
                        - start.time().toLocalDate().toEpochDay()));
    }

    private static Map<Instant, Instant> extras(Component component, Length length, Zones zones)
            throws UnreadableCalendarException {
        var extras = new TreeMap<Instant, Instant>();
        for (var line : component.all("RDATE")) {
            for (var value : line.values()) {
                var slash = value.indexOf('/');
                var start = zones.moment(line, slash < 0 ? value : value.substring(0, slash));
                extras.put(
                        start.instant(),
                        slash < 0
                                ? length.after(start.time(), start.zone())
                                : periodEnd(line, start, value.substring(slash + 1), zones));
            }
        }
        return extras;
    }

    /** The end of a period, written as a time or as a duration (RFC 5545, 3.3.9). */
    static Instant periodEnd(ContentLine line, Moment start, String text, Zones zones)
            throws UnreadableCalendarException {
        return text.strip().startsWith("P") || text.strip().startsWith("+")
                ? Length.of(line, text).after(start.time(), start.zone())
                : zones.moment(line, text).instant();
    }

    private static boolean blocks(Component component) {
        return !says(component, "STATUS", "CANCELLED") && !says(component, "TRANSP", "TRANSPARENT");
    }

    private static boolean says(Component component, String property, String word) {
        Optional<String> said =
                component.first(property).map(line -> line.value().strip().toUpperCase(Locale.ROOT));
        return said.filter(word::equals).isPresent();
    }

    /**
     * Its starts with their ends, in order, those left out already left out; ends may lie before {@code from}.
     *
     * @param most no more than one above these
     */
    Map<Instant, Instant> occurrences(Instant from, Instant until, int most) {
        var found = new TreeMap<Instant, Instant>();
        put(found, start.time());
        var zone = start.zone();
        var earliest = zone.time(from.minus(length.most())).minusDays(1);
        var latest = zone.time(until).plusDays(1);
        for (var rule : rules) {
            rule.dates(start.time(), zone, earliest, latest)
                    .limit(most + 1L)
                    .filter(date -> !withoutDays.contains(date.toLocalDate()))
                    .forEach(date -> put(found, date));
        }
        found.putAll(extras);
        found.keySet().removeAll(without);
        return found;
    }

    private void put(Map<Instant, Instant> found, LocalDateTime time) {
        if (!withoutDays.contains(time.toLocalDate())) {
            found.put(start.zone().instant(time), length.after(time, start.zone()));
        }
    }

    /** Those of a calendar. */
    static List<Event> all(List<Component> components, Zones zones, List<UnreadableCalendarException.Fault> faults) {
        var events = new ArrayList<Event>();
        for (var component : components) {
            try {
                events.add(of(component, zones));
            } catch (UnreadableCalendarException unreadable) {
                faults.addAll(unreadable.faults());
            }
        }
        return events;
    }
}
