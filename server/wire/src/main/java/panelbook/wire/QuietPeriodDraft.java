package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A time in which nobody is told of alerts in a room or on a display.
 *
 * @param roomId either this
 * @param displayId or this
 * @param reason for those who wonder why they heard nothing
 * @param from now when null
 * @param until at most 90 days from now
 */
public record QuietPeriodDraft(
        UUID id,
        @Nullable UUID roomId,
        @Nullable UUID displayId,
        String reason,
        @Nullable Instant from,
        Instant until) {}
