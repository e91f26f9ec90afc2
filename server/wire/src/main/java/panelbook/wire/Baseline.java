package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A baseline of a preset.
 *
 * @param to null while in force, or when withdrawn while in force
 * @param withdrawn why it counts no longer, null when it counts
 */
public record Baseline(
        UUID id,
        UUID presetId,
        UUID runId,
        Instant from,
        @Nullable Instant to,
        @Nullable String reason,
        String declaredBy,
        @Nullable Withdrawal withdrawn) {}
