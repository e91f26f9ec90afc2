package panelbook.app.calendars.ics;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Reads when a calendar takes time, within a window: events with their recurrences and exceptions, and busy times of calendars
 * that publish no events. What is transparent, cancelled or free takes none.
 */
public final class CalendarReader {

    /** More in a year than a room has quarter hours to be booked in by day. */
    public static final int MOST_OCCURRENCES = 20_000;

    private static final int MOST_FAULTS = 20;
    private static final long YEAR_SECONDS = 366L * 86_400;

    private final ZoneId room;
    private final Instant from;
    private final Instant until;
    private final Map<Key, Occurrence> found = new TreeMap<>();

    private record Key(Instant startsAt, String uid) implements Comparable<Key> {

        @Override
        public int compareTo(Key other) {
            return Comparator.comparing(Key::startsAt).thenComparing(Key::uid).compare(this, other);
        }
    }

    private CalendarReader(ZoneId room, Instant from, Instant until) {
        this.room = room;
        this.from = from;
        this.until = until;
    }

    /**
     * Reads a calendar.
     *
     * @param utf8 the text
     * @param room zone of floating times and whole days
     * @param from start of the window
     * @param until end of the window
     * @return what overlaps the window, in order, each start of a UID once
     * @throws UnreadableCalendarException with every line that cannot be read, at most 20; or when more than
     *     {@link #MOST_OCCURRENCES} fall into the window
     */
    public static List<Occurrence> read(byte[] utf8, ZoneId room, Instant from, Instant until)
            throws UnreadableCalendarException {
        var reader = new CalendarReader(room, from, until);
        for (var calendar : Component.calendars(ContentLines.of(utf8))) {
            reader.read(calendar);
        }
        return List.copyOf(reader.found.values());
    }

    private void read(Component calendar) throws UnreadableCalendarException {
        var faults = new ArrayList<UnreadableCalendarException.Fault>();
        var zones = new Zones(
                room, until.plusSeconds(YEAR_SECONDS).atOffset(ZoneOffset.UTC).toLocalDateTime());
        for (var zone : calendar.parts("VTIMEZONE")) {
            try {
                zones.describe(zone);
            } catch (UnreadableCalendarException unreadable) {
                faults.addAll(unreadable.faults());
            }
        }
        var events = Event.all(calendar.parts("VEVENT"), zones, faults);
        refuse(faults);
        lay(events);
        for (var busy : calendar.parts("VFREEBUSY")) {
            busy(busy, zones);
        }
    }

    private static void refuse(List<UnreadableCalendarException.Fault> faults) throws UnreadableCalendarException {
        if (!faults.isEmpty()) {
            throw new UnreadableCalendarException(faults.stream()
                    .sorted(Comparator.comparingInt(UnreadableCalendarException.Fault::line))
                    .limit(MOST_FAULTS)
                    .toList());
        }
    }

    private void lay(List<Event> events) throws UnreadableCalendarException {
        var own = new HashMap<String, Event>();
        var replacing = new HashMap<String, Map<Instant, Event>>();
        for (var event : events) {
            if (event.replaces() == null) {
                own.merge(event.uid(), event, CalendarReader::later);
            } else {
                replacing
                        .computeIfAbsent(event.uid(), uid -> new HashMap<>())
                        .merge(event.replaces(), event, CalendarReader::later);
            }
        }
        for (var event : own.values()) {
            var replaced = replacing.getOrDefault(event.uid(), Map.of()).keySet();
            layOwn(event, new HashSet<>(replaced));
        }
        for (var stands : replacing.values()) {
            for (var event : stands.values()) {
                layOwn(event, Set.of());
            }
        }
    }

    /** Of two revisions the later one; of the same number the one that is written later. */
    private static Event later(Event one, Event other) {
        return other.sequence() >= one.sequence() ? other : one;
    }

    private void layOwn(Event event, Set<Instant> replaced) throws UnreadableCalendarException {
        if (event.blocks()) {
            for (var occurrence :
                    event.occurrences(from, until, MOST_OCCURRENCES).entrySet()) {
                if (!replaced.contains(occurrence.getKey())) {
                    put(event.line(), event.uid(), occurrence.getKey(), occurrence.getValue(), event.title());
                }
            }
        }
    }

    /** Times that are taken, of a calendar that does not say by what (RFC 5545, 3.6.4); other types than FREE take them. */
    private void busy(Component component, Zones zones) throws UnreadableCalendarException {
        var uid = component.first("UID").map(ContentLine::text).orElse("busy");
        for (var line : component.all("FREEBUSY")) {
            if (line.parameter("FBTYPE").filter("FREE"::equalsIgnoreCase).isPresent()) {
                continue;
            }
            for (var value : line.values()) {
                var slash = value.indexOf('/');
                if (slash < 0) {
                    throw new UnreadableCalendarException(
                            line.number(), "FREEBUSY must hold periods like 20260302T090000Z/PT1H.");
                }
                var start = zones.moment(line, value.substring(0, slash));
                put(
                        line.number(),
                        uid,
                        start.instant(),
                        Event.periodEnd(line, start, value.substring(slash + 1), zones),
                        null);
            }
        }
    }

    private void put(int line, String uid, Instant startsAt, Instant endsAt, @Nullable String title)
            throws UnreadableCalendarException {
        if (!startsAt.isBefore(endsAt) || !startsAt.isBefore(until) || !endsAt.isAfter(from)) {
            return;
        }
        found.merge(
                new Key(startsAt, uid),
                new Occurrence(uid, startsAt, endsAt, title),
                (one, other) -> other.endsAt().isAfter(one.endsAt()) ? other : one);
        if (found.size() > MOST_OCCURRENCES) {
            throw new UnreadableCalendarException(
                    line, "With this event the calendar holds more than " + MOST_OCCURRENCES + " bookings.");
        }
    }
}
