package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** Who the bearer of a token is. */
public record Identity(
        UUID tokenId, String holder, Role role, @Nullable Instant expiresAt) {}
