package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A hero of a room, per target.
 *
 * @param to null while it is
 */
public record Hero(
        UUID roomId,
        UUID targetId,
        String target,
        UUID presetId,
        String display,
        String preset,
        Instant from,
        @Nullable Instant to,
        String namedBy) {}
