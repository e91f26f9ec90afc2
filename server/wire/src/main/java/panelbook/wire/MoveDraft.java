package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A display moves.
 *
 * @param roomId where to; null for out of every room
 * @param at when; now when null
 */
public record MoveDraft(
        UUID id,
        @Nullable UUID roomId,
        @Nullable Instant at,
        @Nullable String reason) {}
