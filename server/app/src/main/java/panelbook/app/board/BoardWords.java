package panelbook.app.board;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.time.temporal.Temporal;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import panelbook.app.calendars.BusyTime;
import panelbook.wire.Sureness;

/** How pages say times and figures; templates know it as {@code say}. */
public final class BoardWords {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);
    private static final DateTimeFormatter DAY_OF_YEAR = DateTimeFormatter.ofPattern("EEE d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);

    private static final DateTimeFormatter TYPED = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm", Locale.ROOT);

    private final Instant now;

    BoardWords(Instant now) {
        this.now = now;
    }

    /** Day and time, e.g. Fri 27 Nov 14:30, with the year where it is not this one; in UTC where no zone is given. */
    public String when(@Nullable Instant moment, @Nullable ZoneId zone) {
        return moment == null ? "" : day(moment, zone) + " " + clock(moment, zone);
    }

    /** The day alone, of a moment or a day, with the year where it is not this one. */
    public String day(@Nullable Temporal when, @Nullable ZoneId zone) {
        if (when == null) {
            return "";
        }
        var day = when instanceof Instant moment ? moment.atZone(orUtc(zone)).toLocalDate() : LocalDate.from(when);
        var thisYear = day.getYear() == now.atZone(orUtc(zone)).getYear();
        return (thisYear ? DAY : DAY_OF_YEAR).format(day);
    }

    /** The time of day alone, e.g. 14:30. */
    public String clock(@Nullable Instant moment, @Nullable ZoneId zone) {
        return moment == null ? "" : CLOCK.format(moment.atZone(orUtc(zone)));
    }

    /** Day and time by the clock of a place, as a field of a form takes them. */
    public String typed(Instant moment, @Nullable ZoneId zone) {
        return TYPED.format(moment.atZone(orUtc(zone)));
    }

    /** The day of a moment by the calendar of a place, e.g. 2026-11-27. */
    public LocalDate date(Instant moment, @Nullable ZoneId zone) {
        return LocalDate.ofInstant(moment, orUtc(zone));
    }

    /** A time zone by its name; none for none. */
    public @Nullable ZoneId zone(@Nullable String name) {
        return name == null ? null : ZoneId.of(name);
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

    /** A word of the contract in words: ready-with-remarks, ready with remarks. */
    public String word(@Nullable Object word) {
        return word == null ? "" : word.toString().replace('-', ' ');
    }

    /** A whole number of hours of a panel's counter, or that it is unknown. */
    public String hours(@Nullable Double hours) {
        return hours == null ? "unknown" : Math.round(hours) + " h";
    }

    /** Days between a moment and now, e.g. 1 day, 12 days. */
    public String daysSince(Instant moment) {
        return count((int) Math.max(0, Duration.between(moment, now).toDays()), "day", "days");
    }

    /** How sure a date is, in words. */
    public String sureness(Sureness sureness) {
        return switch (sureness) {
            case FACT -> "so already";
            case CALENDAR -> "by the calendar";
            case OWN_USE -> "by the hours that it runs";
            case EARLIEST_AT_90 -> "not before, with 90 %";
            case EXPECTED -> "expected";
        };
    }

    /** How many of what: 1 room, 2 rooms. */
    public String count(int number, String one, String many) {
        return number + " " + (number == 1 ? one : many);
    }

    private static ZoneId orUtc(@Nullable ZoneId zone) {
        return zone == null ? ZoneOffset.UTC : zone;
    }
}
