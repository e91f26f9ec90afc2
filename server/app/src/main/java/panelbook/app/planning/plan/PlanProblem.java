package panelbook.app.planning.plan;

import java.util.List;

/**
 * What is to be planned.
 *
 * @param dayStarts minutes from the start of the problem at which each of its days starts, rising, the first 0
 * @param travelMinutes between facilities by index, symmetrical, 0 within one
 * @param fixed visits that a person confirmed or pinned, or that were begun: they stay as they are
 * @param proposed visits of the plan before: one that is kept costs nothing, one that is moved or dropped costs
 *     {@code moveDays}
 * @param moveDays weighted days beyond tolerance that moving a proposed visit must save at least, 0 or more
 * @param visitDays weighted days beyond tolerance that a visit must save at least to be made, 0 or more: the price of a
 *     visit
 */
public record PlanProblem(
        List<Integer> dayStarts,
        List<PlanRoom> rooms,
        List<PlanCalibrator> calibrators,
        List<List<Integer>> travelMinutes,
        List<PlannedVisit> fixed,
        List<PlannedVisit> proposed,
        double moveDays,
        double visitDays) {}
