package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * When a preset will have drifted out of tolerance.
 *
 * @param preset facility/room/display/preset
 * @param at when this was worked out
 * @param toleranceSet whose limits are watched
 * @param hoursPerDay panel hours a day that the display ran lately; null when its counter values do not tell
 * @param runsWithoutPanelHours runs that are left out, since no counter value tells when in the panel's life they were taken
 */
public record PresetForecast(
        UUID presetId,
        String preset,
        Instant at,
        String toleranceSet,
        @Nullable Double hoursPerDay,
        int runsWithoutPanelHours,
        List<FigureForecast> figures) {}
