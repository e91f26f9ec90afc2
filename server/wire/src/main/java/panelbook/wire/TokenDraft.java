package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A token to be made.
 *
 * @param holder person or probe
 * @param expiresAt never when null
 */
public record TokenDraft(
        UUID id, String holder, Role role, @Nullable Instant expiresAt) {}
