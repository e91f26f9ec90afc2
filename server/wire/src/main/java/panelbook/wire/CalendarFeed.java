package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A calendar of visits that a calendar program can subscribe to.
 *
 * @param calibrator name; null when it is of a room
 * @param room facility/room; null when it is of a calibrator
 * @param madeBy holder of the token
 */
public record CalendarFeed(
        UUID id,
        @Nullable String calibrator,
        @Nullable String room,
        Instant madeAt,
        String madeBy,
        @Nullable Instant revokedAt,
        @Nullable String revokedBy) {}
