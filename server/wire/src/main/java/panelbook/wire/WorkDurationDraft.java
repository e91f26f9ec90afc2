package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * How long a piece of work takes.
 *
 * @param model of display; null for the figure of the house
 * @param minutes null takes the figure back
 */
public record WorkDurationDraft(
        @Nullable String model, Work work, @Nullable Integer minutes) {}
