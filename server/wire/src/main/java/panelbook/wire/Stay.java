package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A stay of a display in a room.
 *
 * @param to null while it stands there
 */
public record Stay(
        UUID id,
        UUID displayId,
        UUID roomId,
        String room,
        Instant from,
        @Nullable Instant to,
        String movedBy,
        @Nullable String reason) {}
