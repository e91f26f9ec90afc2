package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.List;

/**
 * The least cost among all plans whose visits start on a grid of minutes, by trying each room at each start with each
 * calibrator. When all times of a problem lie on the grid, no plan off the grid is cheaper: its visits can be brought forward,
 * first to last, until each starts where a span starts or a visit or travel ends.
 */
final class EveryPlan {
    private final PlanProblem problem;
    private final PlanRules rules;
    private final int grid;
    private final List<List<PlannedVisit>> choices = new ArrayList<>();
    private final List<PlannedVisit> visits = new ArrayList<>();
    private double least = Double.POSITIVE_INFINITY;

    private EveryPlan(PlanProblem problem, int grid) {
        this.problem = problem;
        this.grid = grid;
        rules = new PlanRules(problem);
    }

    static double leastCost(PlanProblem problem, int grid) {
        EveryPlan search = new EveryPlan(problem, grid);
        for (int room = 0; room < problem.rooms().size(); room++) {
            search.choices.add(search.visitsOf(room));
        }
        search.visits.addAll(problem.fixed());
        search.choose(0);
        return search.least;
    }

    /** Visits that the rules would allow if there were no others but the fixed ones between whose travel they may fall. */
    private List<PlannedVisit> visitsOf(int room) {
        List<PlannedVisit> result = new ArrayList<>();
        if (problem.fixed().stream().anyMatch(visit -> visit.room() == room)) {
            return result;
        }
        int minutes = problem.rooms().get(room).workMinutes();
        for (int calibrator = 0; calibrator < problem.calibrators().size(); calibrator++) {
            for (Span span : problem.calibrators().get(calibrator).works()) {
                for (int start = span.from(); start + minutes <= span.to(); start += grid) {
                    PlannedVisit visit = new PlannedVisit(room, calibrator, start, start + minutes);
                    List<PlannedVisit> alone = new ArrayList<>(problem.fixed());
                    alone.add(visit);
                    if (rules.broken(alone).isEmpty()) {
                        result.add(visit);
                    }
                }
            }
        }
        return result;
    }

    private void choose(int room) {
        if (room == problem.rooms().size()) {
            if (rules.broken(visits).isEmpty()) {
                least = Math.min(least, rules.cost(visits));
            }
            return;
        }
        choose(room + 1);
        for (PlannedVisit visit : choices.get(room)) {
            if (visits.stream().noneMatch(other -> overlap(visit, other))) {
                visits.add(visit);
                choose(room + 1);
                visits.remove(visits.size() - 1);
            }
        }
    }

    private static boolean overlap(PlannedVisit one, PlannedVisit other) {
        return one.calibrator() == other.calibrator() && one.start() < other.end() && other.start() < one.end();
    }
}
