package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A time in which nobody is told of alerts in a room or on a display; what is still open at its end is told then.
 *
 * @param place path of the room or display
 * @param madeBy holder of the token
 * @param endedAt when somebody ended it before its time
 * @param kept events of alerts that it keeps from people now
 */
public record QuietPeriod(
        UUID id,
        @Nullable UUID roomId,
        @Nullable UUID displayId,
        String place,
        String reason,
        Instant from,
        Instant until,
        Instant madeAt,
        String madeBy,
        @Nullable Instant endedAt,
        @Nullable String endedBy,
        long kept) {}
