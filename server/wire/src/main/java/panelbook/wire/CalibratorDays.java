package panelbook.wire;

/**
 * How many days of calibrators a plan takes.
 *
 * @param there are within the plan
 * @param allowed that the plan was given
 * @param used on which it has visits
 * @param needed the fewest that leave no more presets beyond tolerance than all days would
 * @param leftAnyhow presets that are left beyond tolerance even then
 */
public record CalibratorDays(int there, int allowed, int used, int needed, int leftAnyhow) {}
