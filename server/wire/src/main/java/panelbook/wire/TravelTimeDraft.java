package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * How long it takes from one facility to another, either way.
 *
 * @param minutes null takes the figure back: then nobody travels between the two
 */
public record TravelTimeDraft(@Nullable Integer minutes) {}
