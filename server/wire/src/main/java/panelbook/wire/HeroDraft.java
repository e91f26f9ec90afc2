package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Names the hero of a room for the target of the preset.
 *
 * @param from now when null
 */
public record HeroDraft(UUID presetId, @Nullable Instant from) {}
