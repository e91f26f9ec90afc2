package panelbook.app.planning.plan;

import java.util.List;

/**
 * Visits laid out.
 *
 * @param visits the fixed ones included, by start
 * @param cost weighted days beyond tolerance that are left, and the prices of visits and moves
 * @param bound no plan of the problem costs less
 */
public record VisitPlan(List<PlannedVisit> visits, double cost, double bound) {}
