package panelbook.wire.files;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;

/** Times by ISO 8601 with an offset from UTC. */
final class Times {

    private Times() {}

    /**
     * The instant of a time such as {@code 2026-11-25T09:30:00+01:00}.
     *
     * @throws java.time.DateTimeException when it is none, or has no offset
     */
    static Instant parse(String text) {
        // The usual spelling is read by hand: the JDK's formatters take a good part of a short program's run to load.
        if (has(text, "0000-00-00T00:00:00Z")) {
            return local(text).toInstant(ZoneOffset.UTC);
        }
        if (has(text, "0000-00-00T00:00:00+00:00") || has(text, "0000-00-00T00:00:00-00:00")) {
            int sign = text.charAt(19) == '-' ? -1 : 1;
            return local(text)
                    .toInstant(ZoneOffset.ofHoursMinutes(sign * number(text, 20, 22), sign * number(text, 23, 25)));
        }
        return OffsetDateTime.parse(text).toInstant();
    }

    private static LocalDateTime local(String text) {
        return LocalDateTime.of(
                number(text, 0, 4),
                number(text, 5, 7),
                number(text, 8, 10),
                number(text, 11, 13),
                number(text, 14, 16),
                number(text, 17, 19));
    }

    /** Whether a text has the shape of a pattern in which 0 stands for any digit. */
    private static boolean has(String text, String shape) {
        if (text.length() != shape.length()) {
            return false;
        }
        for (int i = 0; i < shape.length(); i++) {
            char c = text.charAt(i);
            char wanted = shape.charAt(i);
            if (wanted == '0' ? c < '0' || c > '9' : c != wanted) {
                return false;
            }
        }
        return true;
    }

    private static int number(String text, int from, int to) {
        return Integer.parseInt(text, from, to, 10);
    }
}
