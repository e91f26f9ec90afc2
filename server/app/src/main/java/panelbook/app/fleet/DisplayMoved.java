package panelbook.app.fleet;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A display left a room, came to one, or both. Published in the transaction of the change.
 *
 * @param fromRoomId null when it stood in none
 * @param toRoomId null when it stands in none
 */
public record DisplayMoved(
        UUID displayId, @Nullable UUID fromRoomId, @Nullable UUID toRoomId, Instant at) {}
