package panelbook.app.planning.plan;

import java.util.Locale;

/** Cost of plans of a large house beside the bound, by load. */
public final class PlanAgainstBound {
    private PlanAgainstBound() {}

    public static void main(String[] arguments) {
        int rooms = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 300;
        PlanLimits standard = PlanLimits.standard();
        PlanLimits limits = PlanLimits.of(
                arguments.length > 1 ? Integer.parseInt(arguments[1]) : standard.searchSteps(),
                arguments.length > 2 ? Integer.parseInt(arguments[2]) : standard.boundSteps());
        System.out.println("working days a week | seed | visits | cost | bound | gap % | s");
        for (int weekDays = 5; weekDays >= 1; weekDays--) {
            for (int seed = 1; seed <= (arguments.length > 3 ? 1 : 3); seed++) {
                PlanProblem problem = StudioProblems.large(seed, rooms, 8, 60, weekDays);
                long start = System.nanoTime();
                VisitPlan plan = Planner.plan(problem, limits);
                System.out.printf(
                        Locale.ROOT,
                        "%d | %d | %d | %.1f | %.1f | %.2f | %.1f%n",
                        weekDays,
                        seed,
                        plan.visits().size(),
                        plan.cost(),
                        plan.bound(),
                        100 * (plan.cost() - plan.bound()) / plan.bound(),
                        (System.nanoTime() - start) * 1e-9);
            }
        }
    }
}
