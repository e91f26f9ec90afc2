package panelbook.wire;

/**
 * An axis of a drawing.
 *
 * @param unit empty where there is none
 * @param decimals that its values are worth
 */
public record DrawingAxis(String name, String unit, AxisScale scale, int decimals) {}
