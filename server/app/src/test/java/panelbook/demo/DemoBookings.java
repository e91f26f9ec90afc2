package panelbook.demo;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What the rooms are booked for in the weeks ahead, as the calendars (iCalendar, RFC 5545) that the house keeps. */
final class DemoBookings {
    private static final DateTimeFormatter LOCAL = DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss");
    private static final int WEEKS = 8;

    private DemoBookings() {}

    /**
     * The calendars.
     *
     * @param now when the story ends; bookings start in the week of that day
     * @return text of each calendar by room
     */
    static Map<String, String> calendars(Instant now) {
        var monday = LocalDate.ofInstant(now, ZoneOffset.UTC).with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
        var calendars = new TreeMap<String, String>();
        // a feature in grading: booked all day, with Fridays free in the afternoon
        calendars.put(
                "Alder",
                calendar(
                        "Alder",
                        weekly(
                                "feature-days",
                                "Feature, grade",
                                monday,
                                LocalTime.of(9, 0),
                                LocalTime.of(19, 0),
                                "MO,TU,WE,TH"),
                        weekly(
                                "feature-fridays",
                                "Feature, grade",
                                monday.plusDays(4),
                                LocalTime.of(9, 0),
                                LocalTime.of(13, 0),
                                "FR")));
        // free in the mornings
        calendars.put(
                "Cedar",
                calendar(
                        "Cedar",
                        weekly(
                                "dailies",
                                "Dailies",
                                monday,
                                LocalTime.of(13, 0),
                                LocalTime.of(20, 0),
                                "MO,TU,WE,TH,FR")));
        // a fortnight that leaves no hour free, then nothing
        calendars.put(
                "Fir", calendar("Fir", once("conform", "Series, conform and grade", monday, monday.plusDays(14))));
        calendars.put(
                "Gorse",
                calendar(
                        "Gorse",
                        weekly(
                                "reviews",
                                "Review",
                                monday.plusDays(1),
                                LocalTime.of(10, 0),
                                LocalTime.of(18, 0),
                                "TU,TH")));
        return calendars;
    }

    @SafeVarargs
    private static String calendar(String room, List<String>... events) {
        var lines = new java.util.ArrayList<>(
                List.of("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Quillwater//Bookings of " + room + "//EN"));
        for (var event : events) {
            lines.addAll(event);
        }
        lines.add("END:VCALENDAR");
        return String.join("\r\n", lines) + "\r\n";
    }

    private static List<String> weekly(
            String uid, String title, LocalDate first, LocalTime from, LocalTime to, String days) {
        return List.of(
                "BEGIN:VEVENT",
                "UID:" + uid + "@quillwater.example",
                "DTSTAMP:" + LOCAL.format(first.atStartOfDay()) + "Z",
                "DTSTART;TZID=Europe/Lisbon:" + LOCAL.format(first.atTime(from)),
                "DTEND;TZID=Europe/Lisbon:" + LOCAL.format(first.atTime(to)),
                "RRULE:FREQ=WEEKLY;BYDAY=" + days + ";UNTIL="
                        + LOCAL.format(first.plus(WEEKS, ChronoUnit.WEEKS).atStartOfDay()) + "Z",
                "SUMMARY:" + title.replace(",", "\\,"),
                "END:VEVENT");
    }

    private static List<String> once(String uid, String title, LocalDate from, LocalDate to) {
        return List.of(
                "BEGIN:VEVENT",
                "UID:" + uid + "@quillwater.example",
                "DTSTAMP:" + LOCAL.format(from.atStartOfDay()) + "Z",
                "DTSTART;VALUE=DATE:" + DateTimeFormatter.BASIC_ISO_DATE.format(from),
                "DTEND;VALUE=DATE:" + DateTimeFormatter.BASIC_ISO_DATE.format(to),
                "SUMMARY:" + title.replace(",", "\\,"),
                "END:VEVENT");
    }
}
