package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.forecast.DailyUse;

/**
 * What lies ahead of a preset.
 *
 * @param use of its display lately; empty when its counter does not tell
 * @param runsWithoutHours runs that no counter value places in the panel's life
 */
record Prospect(
        PresetLine line, List<Outlook> outlooks, Counter counter, Optional<DailyUse> use, int runsWithoutHours) {

    private static final double MOST_DAYS = 36_500;
    private static final double SECONDS_PER_DAY = 86_400;

    /** When the counter of an outlook reaches a value; null when nobody knows, or not within a hundred years. */
    @Nullable
    Instant at(Outlook.From from, double hours) {
        return after(from.lastAt(), hours - from.lastHours());
    }

    /** When the panel will have run so many more hours; null when nobody knows, or not within a hundred years. */
    @Nullable
    Instant after(Instant start, double hours) {
        if (hours <= 0) {
            return start;
        }
        var days = use.map(daily -> hours / daily.hoursPerDay()).orElse(Double.POSITIVE_INFINITY);
        return days < MOST_DAYS ? start.plus(Duration.ofSeconds(Math.round(days * SECONDS_PER_DAY))) : null;
    }
}
