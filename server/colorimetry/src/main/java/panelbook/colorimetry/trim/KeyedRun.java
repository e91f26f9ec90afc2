package panelbook.colorimetry.trim;

import panelbook.colorimetry.drift.MeasuredRun;

/**
 * The readings taken between two trims.
 *
 * @param key names these readings: two trims that share them, one as after and one as before, share their noise
 * @param run readings and what they are worth
 */
public record KeyedRun(String key, MeasuredRun run) {}
