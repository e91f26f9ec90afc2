package panelbook.wire;

/**
 * One measured patch.
 *
 * @param red code value
 * @param green code value
 * @param blue code value
 * @param x tristimulus X, cd/m²
 * @param y tristimulus Y, the luminance, cd/m²
 * @param z tristimulus Z, cd/m²
 */
public record ReadingEntry(int red, int green, int blue, double x, double y, double z) {}
