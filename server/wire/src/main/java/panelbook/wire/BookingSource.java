package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A calendar that tells when a room is booked.
 *
 * @param room its name
 * @param fetched whether the service fetches it from an address; else a client sends it
 * @param readAt when it was last read; null before the first time
 * @param triedAt when the service last tried to fetch it
 * @param error why the last try failed, null when it did not: what was read before holds until it succeeds
 * @param bookings how many it tells of, from a month back to a year ahead
 * @param version counts the calendars that were read and differed
 */
public record BookingSource(
        UUID id,
        UUID roomId,
        String room,
        String name,
        boolean fetched,
        @Nullable Instant readAt,
        @Nullable Instant triedAt,
        @Nullable String error,
        int bookings,
        @Nullable Instant retiredAt,
        long version) {}
