package panelbook.app.planning.plan;

/**
 * A calibrator's working span, with what is fixed in it.
 *
 * @param index among the shifts of the problem
 * @param calibrator index in the problem
 * @param home facility where the calibrator is at both ends
 * @param from minutes from the start of the problem
 * @param to minutes from the start of the problem, excluded
 * @param day of the problem on which the whole shift lies, or {@link #SEVERAL_DAYS}
 * @param fixedStops indices of the fixed visits that reach into it, by start
 */
record Shift(int index, int calibrator, int home, int from, int to, int day, int[] fixedStops) {
    static final int SEVERAL_DAYS = -1;
}
