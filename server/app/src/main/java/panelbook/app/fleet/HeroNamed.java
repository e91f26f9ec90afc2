package panelbook.app.fleet;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A room has another hero for a target. Published in the transaction of the change.
 *
 * @param formerPresetId the hero until then, if there was one
 */
public record HeroNamed(
        UUID roomId, UUID targetId, UUID presetId, @Nullable UUID formerPresetId, Instant at) {}
