package panelbook.app.planning.plan;

/**
 * A visit.
 *
 * @param room index in the problem
 * @param calibrator index in the problem
 * @param start of the work, minutes from the start of the problem
 * @param end of the work, minutes from the start of the problem
 */
public record PlannedVisit(int room, int calibrator, int start, int end) {}
