package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A time at which a room is booked.
 *
 * @param source name of the calendar that says so
 * @param endsAt the instant after the last
 * @param title what the calendar calls it, for engineers only, since it may name a client; null for others
 */
public record Booking(
        UUID sourceId,
        String source,
        Instant startsAt,
        Instant endsAt,
        @Nullable String title) {}
