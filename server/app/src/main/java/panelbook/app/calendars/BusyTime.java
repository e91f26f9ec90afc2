package panelbook.app.calendars;

import java.time.Instant;

/**
 * A time at which a room is booked.
 *
 * @param from first instant
 * @param until the instant after the last, later than {@code from}
 */
public record BusyTime(Instant from, Instant until) {
    public BusyTime {
        if (!from.isBefore(until)) {
            throw new IllegalArgumentException(
                    "a booking must end after it starts, but goes from " + from + " to " + until);
        }
    }
}
