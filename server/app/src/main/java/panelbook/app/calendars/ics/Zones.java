package panelbook.app.calendars.ics;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The zones that a calendar's times may name: those that it describes itself, then those of the IANA database. They hold for that
 * calendar only.
 */
final class Zones {

    private static final Pattern DAY = Pattern.compile("(\\d{4})(\\d{2})(\\d{2})");
    private static final Pattern TIME = Pattern.compile(DAY.pattern() + "T(\\d{2})(\\d{2})(\\d{2})(Z?)");
    private static final Pattern OFFSET = Pattern.compile("([+-])(\\d{2})(\\d{2})(\\d{2})?");
    private static final int LAST_SECOND = 59;

    private final Zone room;
    private final LocalDateTime horizon;
    private final Map<String, Zone> described = new HashMap<>();

    /**
     * Zones of a calendar.
     *
     * @param room where floating times and whole days are meant
     * @param horizon no time later than this is asked for
     */
    Zones(ZoneId room, LocalDateTime horizon) {
        this.room = new Zone.Named(room);
        this.horizon = horizon;
    }

    /** Takes in a zone that the calendar describes (RFC 5545, 3.6.5). */
    void describe(Component zone) throws UnreadableCalendarException {
        var changes = new ArrayList<Zone.Described.Change>();
        for (var part : zone.parts()) {
            if (part.name().equals("STANDARD") || part.name().equals("DAYLIGHT")) {
                changes.addAll(changes(part));
            }
        }
        if (changes.isEmpty()) {
            throw new UnreadableCalendarException(zone.line(), "This VTIMEZONE has neither STANDARD nor DAYLIGHT.");
        }
        changes.sort(Comparator.comparing(Zone.Described.Change::instant));
        described.put(zone.needed("TZID").value().strip(), new Zone.Described(changes));
    }

    private List<Zone.Described.Change> changes(Component part) throws UnreadableCalendarException {
        var before = offset(part.needed("TZOFFSETFROM"));
        var after = offset(part.needed("TZOFFSETTO"));
        var onset = time(part.needed("DTSTART"));
        var onsets = new ArrayList<LocalDateTime>(List.of(onset));
        for (var line : part.all("RDATE")) {
            for (var value : line.values()) {
                onsets.add(moment(line, value).time());
            }
        }
        // an UNTIL is in UTC, and the dates go by the clock as it was before each change
        for (var rule : Rule.all(part, this)) {
            rule.dates(onset, new Zone.Named(before), onset, horizon).forEach(onsets::add);
        }
        return onsets.stream()
                .distinct()
                .map(at -> new Zone.Described.Change(at, before, after))
                .toList();
    }

    private LocalDateTime time(ContentLine line) throws UnreadableCalendarException {
        return moment(line, line.value()).time();
    }

    private static ZoneOffset offset(ContentLine line) throws UnreadableCalendarException {
        var matcher = OFFSET.matcher(line.value().strip());
        if (matcher.matches()) {
            try {
                var seconds =
                        number(matcher.group(2)) * 3600 + number(matcher.group(3)) * 60 + number(matcher.group(4));
                return ZoneOffset.ofTotalSeconds(matcher.group(1).equals("-") ? -seconds : seconds);
            } catch (DateTimeException outOfRange) {
                // said below
            }
        }
        throw new UnreadableCalendarException(line.number(), line.name() + " must read like +0100.");
    }

    /** The moment that a line says. */
    Moment moment(ContentLine line) throws UnreadableCalendarException {
        return moment(line, line.value());
    }

    /** One of the moments that a line says. */
    Moment moment(ContentLine line, String text) throws UnreadableCalendarException {
        var value = text.strip();
        var day = DAY.matcher(value);
        var time = TIME.matcher(value);
        try {
            if (day.matches()) {
                return new Moment(true, true, date(day).atStartOfDay(), room);
            }
            if (time.matches() && !line.isA("DATE")) {
                return moment(
                        line, date(time).atTime(clock(time)), !time.group(7).isEmpty());
            }
        } catch (DateTimeException noSuchDay) {
            throw new UnreadableCalendarException(
                    line.number(), line.name() + " names a day or time that does not exist.");
        }
        throw new UnreadableCalendarException(
                line.number(), line.name() + " must hold a day like 20260302 or a time like 20260302T090000Z.");
    }

    private Moment moment(ContentLine line, LocalDateTime time, boolean utc) throws UnreadableCalendarException {
        if (utc) {
            return new Moment(false, false, time, Zone.UTC);
        }
        var name = line.parameter("TZID");
        return name.isPresent()
                ? new Moment(false, false, time, zone(line, name.get()))
                : new Moment(false, true, time, room);
    }

    private Zone zone(ContentLine line, String name) throws UnreadableCalendarException {
        var own = described.get(name);
        var zone = own == null ? known(name).orElse(null) : own;
        if (zone == null) {
            throw new UnreadableCalendarException(
                    line.number(),
                    "The time zone of " + line.name()
                            + " is neither described by a VTIMEZONE nor one of the IANA database.");
        }
        return zone;
    }

    /** A name may have the path of whoever defines it before it (RFC 5545, 3.8.3.1). */
    private static Optional<Zone> known(String name) {
        for (var from = 0; from >= 0; from = name.indexOf('/', from) + 1) {
            var rest = name.substring(from);
            if (ZoneId.getAvailableZoneIds().contains(rest)) {
                return Optional.of(new Zone.Named(ZoneId.of(rest)));
            }
            if (name.indexOf('/', from) < 0) {
                break;
            }
        }
        return Optional.empty();
    }

    private static LocalDate date(java.util.regex.Matcher matcher) {
        return LocalDate.of(number(matcher.group(1)), number(matcher.group(2)), number(matcher.group(3)));
    }

    /** A leap second is the second before it. */
    private static LocalTime clock(java.util.regex.Matcher matcher) {
        var second = number(matcher.group(6));
        return LocalTime.of(
                number(matcher.group(4)), number(matcher.group(5)), second == LAST_SECOND + 1 ? LAST_SECOND : second);
    }

    private static int number(@Nullable String digits) {
        return digits == null ? 0 : Integer.parseInt(digits);
    }
}
