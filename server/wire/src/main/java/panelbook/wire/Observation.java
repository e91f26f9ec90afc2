package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * What the operator saw.
 *
 * @param look how the follower looks beside the hero
 * @param place where
 * @param colour which one, for a single colour
 * @param material what was on the screens
 */
public record Observation(
        Look look,
        Place place,
        @Nullable String colour,
        @Nullable String material) {}
