package panelbook.colorimetry.forecast;

import java.util.OptionalDouble;

/** What a series says about the crossing of a tolerance, or why it says nothing. */
public sealed interface Forecast {
    /**
     * Fewer readings, or fewer different panel hours, than a forecast needs.
     *
     * @param readings how many there are, at different panel hours
     * @param needed how many it takes
     */
    record TooFew(int readings, int needed) implements Forecast {}

    /**
     * No movement towards the tolerance that can be told from none with 90 %: a date would be made up.
     *
     * @param trend what was found, for a drawing
     */
    record Flat(Trend trend) implements Forecast {}

    /**
     * The trend lies beyond the tolerance already at the last reading. Single readings are judged elsewhere.
     *
     * @param trend what was found
     */
    record BeyondAlready(Trend trend) implements Forecast {}

    /**
     * Not even the earliest crossing lies within what may be said.
     *
     * @param trend what was found
     * @param horizonHours panel hours up to which the tolerance holds with 90 %: six times the hours observed
     */
    record NotWithinHorizon(Trend trend, double horizonHours) implements Forecast {}

    /**
     * The tolerance will be crossed.
     *
     * @param trend what was found
     * @param expectedHours panel hours of the crossing as expected; empty when that lies beyond the horizon
     * @param earliestHours panel hours before which it is not crossed with 90 %, one-sided; those of the last reading when
     *     it may be crossed already
     * @param horizonHours panel hours beyond which nothing is said
     */
    record Crossing(Trend trend, OptionalDouble expectedHours, double earliestHours, double horizonHours)
            implements Forecast {}
}
