package panelbook.app.planning.plan;

import java.lang.management.ManagementFactory;
import java.util.Locale;

/**
 * Cost of plans of a large house beside the bound, by load: 300 rooms in three facilities, 8 calibrators, 60 days with
 * sessions booked. Run by {@code deploy/bench/simulations}.
 */
public final class PlanAgainstBound {
    private static final int CALIBRATORS = 8;
    private static final int DAYS = 60;

    private PlanAgainstBound() {}

    /** Arguments: rooms, houses of each load. */
    public static void main(String[] arguments) {
        int rooms = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 300;
        int houses = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 2;
        System.out.println(
                "| working days a week | house | visits | cost | bound | above the bound, % | cost without visits"
                        + " | of what can be saved, % | s | s of processor |");
        System.out.println("|---|---|---|---|---|---|---|---|---|---|");
        for (int weekDays : new int[] {5, 3, 2, 1}) {
            for (int house = 1; house <= houses; house++) {
                print(weekDays, house, StudioProblems.large(house, rooms, CALIBRATORS, DAYS, weekDays));
            }
        }
        printNeededDays(StudioProblems.large(1, rooms, CALIBRATORS, DAYS, 5));
    }

    /** How many days of a calibrator the first house needs, with three weighted days allowed and a week of grace. */
    private static void printNeededDays(PlanProblem problem) {
        double processor = processorSeconds();
        CalibratorDays.Need need = CalibratorDays.needed(
                problem,
                CalibratorDays.standardOf(problem),
                new CalibratorDays.Allowance(3, 7),
                PlanLimits.of(20_000, 300));
        System.out.printf(
                Locale.ROOT,
                "%nDays of one calibrator, spread evenly: %d are enough, fewer than %d are not; %d rooms are late anyhow, %d come"
                        + " too late or not at all; tried %s; %.1f s of processor%n",
                need.least().days(),
                need.provenAtLeast(),
                need.least().lost().size(),
                need.least().late().size(),
                need.lateRooms(),
                processorSeconds() - processor);
    }

    private static void print(int weekDays, int house, PlanProblem problem) {
        long start = System.nanoTime();
        double processor = processorSeconds();
        VisitPlan plan = Planner.plan(problem, PlanLimits.standard());
        double without = problem.rooms().stream()
                .mapToDouble(room -> room.beyondDays().get(DAYS))
                .sum();
        System.out.printf(
                Locale.ROOT,
                "| %d | %d | %d | %.0f | %.0f | %.1f | %.0f | %.2f | %.0f | %.1f |%n",
                weekDays,
                house,
                plan.visits().size(),
                plan.cost(),
                plan.bound(),
                100 * (plan.cost() / plan.bound() - 1),
                without,
                100 * (without - plan.cost()) / (without - plan.bound()),
                (System.nanoTime() - start) * 1e-9,
                processorSeconds() - processor);
    }

    private static double processorSeconds() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() * 1e-9;
    }
}
