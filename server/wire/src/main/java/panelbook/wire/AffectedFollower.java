package panelbook.wire;

import java.util.UUID;

/**
 * A follower that a moved hero or a new baseline touches.
 *
 * @param preset path
 * @param text the residual in words
 */
public record AffectedFollower(UUID presetId, String preset, String text) {}
