package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A step in the life of an alert.
 *
 * @param sequence place in the stream of all alert events
 * @param subject path of the preset or room, or name of the instrument
 * @param heldBack whether another alert held it back then; of an end, whether it was held back all the time since it opened
 */
public record AlertEvent(
        long sequence,
        UUID alertId,
        AlertEventKind kind,
        AlertCause cause,
        String subject,
        Instant at,
        String by,
        @Nullable String note,
        String headline,
        @Nullable UUID facilityId,
        @Nullable UUID roomId,
        @Nullable String room,
        boolean heldBack) {}
