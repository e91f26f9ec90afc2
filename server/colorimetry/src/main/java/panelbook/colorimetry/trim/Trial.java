package panelbook.colorimetry.trim;

/**
 * One control turned, with readings before and after.
 *
 * @param control which
 * @param clicks how far, up or down; 0 teaches nothing
 * @param before readings at the setting that was left
 * @param after readings at the new one; between the two nothing else was turned
 */
public record Trial(Control control, int clicks, KeyedRun before, KeyedRun after) {}
