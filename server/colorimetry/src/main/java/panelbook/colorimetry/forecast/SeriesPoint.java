package panelbook.colorimetry.forecast;

import java.time.Instant;
import panelbook.colorimetry.Require;

/**
 * One figure of a display's life.
 *
 * @param panelHours what the counter said, h, not negative
 * @param at when
 * @param figure what was measured, in the unit that the user of the series states
 * @param baseline key of the baseline in force; another key means that the preset was calibrated anew
 * @param panel key of the panel in the display; another key means that it was replaced
 */
public record SeriesPoint<T>(double panelHours, Instant at, T figure, String baseline, String panel) {
    public SeriesPoint {
        Require.notNegative("panel hours", panelHours);
    }
}
