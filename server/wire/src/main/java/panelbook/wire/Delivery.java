package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A message and what became of it.
 *
 * @param id the same on every attempt; receivers tell repeats by it
 * @param kind what it tells
 * @param heading for people, one line
 * @param alertIds what it is about
 * @param nextAttemptAt null when it arrived or was given up
 * @param lastError of the last attempt that failed
 * @param givenUpAt when it was given up
 */
public record Delivery(
        UUID id,
        MessageKind kind,
        String heading,
        List<UUID> alertIds,
        Instant createdAt,
        int attempts,
        @Nullable Instant nextAttemptAt,
        @Nullable String lastError,
        @Nullable Instant deliveredAt,
        @Nullable Instant givenUpAt) {}
