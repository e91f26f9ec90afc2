package panelbook.app.calendars.ics;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A time that a calendar takes.
 *
 * @param uid of its event
 * @param startsAt first instant
 * @param endsAt the instant after the last, later than {@code startsAt}
 * @param title what the calendar calls it; null when it does not
 */
public record Occurrence(
        String uid,
        Instant startsAt,
        Instant endsAt,
        @Nullable String title) {}
