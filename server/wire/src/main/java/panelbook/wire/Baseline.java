package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A baseline of a preset.
 *
 * @param to null while in force
 */
public record Baseline(
        UUID id,
        UUID presetId,
        UUID runId,
        Instant from,
        @Nullable Instant to,
        @Nullable String reason,
        String declaredBy) {}
