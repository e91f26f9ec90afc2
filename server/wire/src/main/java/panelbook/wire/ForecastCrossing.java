package panelbook.wire;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * When a limit is crossed.
 *
 * @param panelHours the counter then, h
 * @param at by the display's own hours a day; null where these are unknown
 */
public record ForecastCrossing(double panelHours, @Nullable Instant at) {}
