package panelbook.wire;

/**
 * A forecast figure, for drawing.
 *
 * @param panelHours the counter, h
 * @param expected in the unit of the figure
 * @param low lower edge of the band: the truth lies above it with 90 %
 * @param high upper edge of the band: the truth lies below it with 90 %
 */
public record ForecastValue(double panelHours, double expected, double low, double high) {}
