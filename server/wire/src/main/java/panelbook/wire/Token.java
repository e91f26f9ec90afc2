package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A token without its secret. */
public record Token(
        UUID id,
        String holder,
        Role role,
        Instant createdAt,
        String createdBy,
        @Nullable Instant expiresAt,
        @Nullable Instant revokedAt,
        @Nullable String revokedBy) {}
