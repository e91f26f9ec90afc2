package panelbook.app.board;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import panelbook.app.calendars.BusyTime;

/** How pages say times and figures; templates know it as {@code say}. */
public final class BoardWords {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);
    private static final DateTimeFormatter DAY_OF_YEAR = DateTimeFormatter.ofPattern("EEE d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);

    private final Instant now;

    BoardWords(Instant now) {
        this.now = now;
    }

    /** Day and time, e.g. Fri 27 Nov 14:30, with the year where it is not this one; in UTC where no zone is given. */
    public String when(@Nullable Instant moment, @Nullable ZoneId zone) {
        return moment == null ? "" : day(moment, zone) + " " + clock(moment, zone);
    }

    /** The day alone. */
    public String day(@Nullable Instant moment, @Nullable ZoneId zone) {
        return moment == null ? "" : day(moment.atZone(orUtc(zone)).toLocalDate(), zone);
    }

    /** A day, with the year where it is not this one. */
    public String day(LocalDate day, @Nullable ZoneId zone) {
        var thisYear = day.getYear() == now.atZone(orUtc(zone)).getYear();
        return (thisYear ? DAY : DAY_OF_YEAR).format(day);
    }

    /** The time of day alone, e.g. 14:30. */
    public String clock(@Nullable Instant moment, @Nullable ZoneId zone) {
        return moment == null ? "" : CLOCK.format(moment.atZone(orUtc(zone)));
    }

    /** A moment for the datetime attribute, to the second. */
    public String stamp(Instant moment) {
        return moment.truncatedTo(ChronoUnit.SECONDS).toString();
    }

    /** A booking under way or to come; empty for none. */
    public String booking(@Nullable BusyTime booking, ZoneId zone) {
        if (booking == null) {
            return "";
        }
        return booking.from().isAfter(now)
                ? when(booking.from(), zone)
                : "now, until "
                        + (day(booking.from(), zone).equals(day(booking.until(), zone))
                                ? clock(booking.until(), zone)
                                : when(booking.until(), zone));
    }

    /** A number with that many decimals, or a dash for none. */
    public String number(@Nullable Double value, int decimals) {
        return value == null ? "–" : minus(String.format(Locale.ROOT, "%." + decimals + "f", value));
    }

    /** The same with its sign. */
    public String signed(@Nullable Double value, int decimals) {
        return value == null ? "–" : minus(String.format(Locale.ROOT, "%+." + decimals + "f", value));
    }

    /** A figure to three digits, as long as it needs to be: 0.0031, 1.52, 998. */
    public String figure(@Nullable Double value) {
        if (value == null) {
            return "–";
        }
        var size = Math.abs(value);
        var decimals = size == 0 ? 0 : Math.max(0, Math.min(6, 2 - (int) Math.floor(Math.log10(size))));
        return number(value, decimals);
    }

    /** A word of the contract in words: ready-with-remarks, ready with remarks. */
    public String word(@Nullable Object word) {
        return word == null ? "" : word.toString().replace('-', ' ');
    }

    /** How many of what: 1 room, 2 rooms. */
    public String count(int number, String one, String many) {
        return number + " " + (number == 1 ? one : many);
    }

    private static String minus(String number) {
        return number.replace('-', '−');
    }

    private static ZoneId orUtc(@Nullable ZoneId zone) {
        return zone == null ? ZoneOffset.UTC : zone;
    }
}
