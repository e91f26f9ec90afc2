package panelbook.app.calendars.ics;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.stream.Collectors;

/** Calendars as text. */
public final class CalendarText {

    private CalendarText() {}

    /** A calendar of the lines of components, with CRLF. */
    public static byte[] of(String... parts) {
        var body = Arrays.stream(parts).collect(Collectors.joining("\n"));
        return lines("BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Quillwater//Bookings//EN\n" + body.strip()
                + "\nEND:VCALENDAR\n");
    }

    /** An event of the lines. */
    public static String event(String uid, String... lines) {
        return "BEGIN:VEVENT\nUID:" + uid + "\nDTSTAMP:20260301T000000Z\n" + String.join("\n", lines) + "\nEND:VEVENT";
    }

    static byte[] lines(String text) {
        return text.replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8);
    }
}
