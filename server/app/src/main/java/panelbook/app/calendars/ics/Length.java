package panelbook.app.calendars.ics;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How long an event takes (RFC 5545, 3.3.6 and 3.8.5.3): days by the clock, the rest by the second.
 *
 * @param days whole days, whatever their hours
 * @param exact what comes on top
 */
record Length(long days, Duration exact) {

    private static final Pattern WRITTEN = Pattern.compile(
            "([+-])?P(?:(\\d{1,6})W|(?:(\\d{1,6})D)?(?:T(?:(\\d{1,6})H)?(?:(\\d{1,6})M)?(?:(\\d{1,6})S)?)?)");
    private static final int DAYS_PER_WEEK = 7;

    static Length days(long days) {
        return new Length(days, Duration.ZERO);
    }

    static Length exact(Duration exact) {
        return new Length(0, exact);
    }

    /** A duration as it is written. */
    static Length of(ContentLine line, String text) throws UnreadableCalendarException {
        var matcher = WRITTEN.matcher(text.strip());
        if (!matcher.matches() || text.strip().endsWith("P") || text.strip().endsWith("T")) {
            throw new UnreadableCalendarException(line.number(), line.name() + " must read like PT1H30M or P1D.");
        }
        if ("-".equals(matcher.group(1))) {
            throw new UnreadableCalendarException(line.number(), "An event cannot last less than no time.");
        }
        return new Length(
                number(matcher.group(2)) * DAYS_PER_WEEK + number(matcher.group(3)),
                Duration.ofHours(number(matcher.group(4)))
                        .plusMinutes(number(matcher.group(5)))
                        .plusSeconds(number(matcher.group(6))));
    }

    private static long number(@Nullable String digits) {
        return digits == null ? 0 : Long.parseLong(digits);
    }

    /** When what starts at {@code time} by the clock of {@code zone} ends. */
    Instant after(LocalDateTime time, Zone zone) {
        return zone.instant(time.plusDays(days)).plus(exact);
    }

    /** No event of this length takes longer. */
    Duration most() {
        return exact.plusDays(days + 1);
    }
}
