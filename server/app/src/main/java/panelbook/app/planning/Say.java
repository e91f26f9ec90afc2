package panelbook.app.planning;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Numbers and days in sentences. */
final class Say {

    private static final DateTimeFormatter MINUTE = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

    private Say() {}

    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** The day of an instant, in a time zone. */
    static String day(Instant at, ZoneId zone) {
        return LocalDate.ofInstant(at, zone).toString();
    }

    /** Day and minute of an instant, in a time zone. */
    static String time(Instant at, ZoneId zone) {
        return MINUTE.format(at.atZone(zone));
    }
}
