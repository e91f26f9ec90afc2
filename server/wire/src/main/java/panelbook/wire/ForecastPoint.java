package panelbook.wire;

import java.time.Instant;
import java.util.UUID;

/**
 * One run in the series of a forecast.
 *
 * @param panelHours the counter, h
 * @param value in the unit of the figure
 * @param used whether the forecast rests on it
 * @param doubtful whether its counter looks mistyped: somebody should look again
 */
public record ForecastPoint(
        UUID runId, Instant takenAt, double panelHours, double value, boolean used, boolean doubtful) {}
