package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * How long a piece of work takes, and where that comes from.
 *
 * @param model of display; null for the figure of the house
 * @param minutes what a plan counts with
 * @param source where these come from
 * @param toldMinutes what somebody said of this model or house
 * @param learnedMinutes median of past visits; null while there are too few
 * @param visits past visits that show how long it takes
 * @param version ETag; 0 where nobody said anything
 */
public record WorkDuration(
        @Nullable String model,
        Work work,
        int minutes,
        DurationSource source,
        @Nullable Integer toldMinutes,
        @Nullable Integer learnedMinutes,
        int visits,
        long version) {}
