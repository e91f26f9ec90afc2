package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The rules of a plan and its cost, told one by one from a list of visits, without any of the planner's own code. */
final class PlanRules {
    private final PlanProblem problem;

    PlanRules(PlanProblem problem) {
        this.problem = problem;
    }

    /** What breaks a rule; what is fixed may break any. */
    List<String> broken(List<PlannedVisit> visits) {
        List<String> broken = new ArrayList<>();
        for (PlannedVisit fixed : problem.fixed()) {
            if (!visits.contains(fixed)) {
                broken.add("fixed visit is gone: " + fixed);
            }
        }
        List<PlannedVisit> own = new ArrayList<>(visits);
        problem.fixed().forEach(own::remove);
        for (PlannedVisit visit : own) {
            breaks(visit, visits).forEach(rule -> broken.add(rule + ": " + visit));
        }
        return broken;
    }

    private List<String> breaks(PlannedVisit visit, List<PlannedVisit> all) {
        List<String> broken = new ArrayList<>();
        PlanRoom room = problem.rooms().get(visit.room());
        PlanCalibrator who = problem.calibrators().get(visit.calibrator());
        if (all.stream().filter(other -> other.room() == visit.room()).count() > 1) {
            broken.add("room is visited twice");
        }
        if (visit.end() - visit.start() != room.workMinutes()) {
            broken.add("visit is not as long as its work");
        }
        if (!who.skills().isEmpty() && !who.skills().containsAll(room.skills())) {
            broken.add("calibrator lacks a skill");
        }
        if (!liesWithinOne(room.free(), visit.start() - room.warmUpMinutes(), visit.end())) {
            broken.add("room is booked during warm-up or work");
        }
        if (!liesWithinOne(who.works(), visit.start(), visit.end())) {
            broken.add("calibrator does not work then");
        } else if (!canGetThereAndAway(visit, all)) {
            broken.add("no time for travel");
        }
        return broken;
    }

    private static boolean liesWithinOne(List<Span> spans, int from, int to) {
        return spans.stream().anyMatch(span -> span.from() <= from && to <= span.to());
    }

    private boolean canGetThereAndAway(PlannedVisit visit, List<PlannedVisit> all) {
        PlanCalibrator who = problem.calibrators().get(visit.calibrator());
        Span span = who.works().stream()
                .filter(it -> it.from() <= visit.start() && visit.end() <= it.to())
                .findFirst()
                .orElseThrow();
        List<PlannedVisit> others = all.stream()
                .filter(other -> other != visit && other.calibrator() == visit.calibrator())
                .filter(other -> other.start() < span.to() && other.end() > span.from())
                .sorted(Comparator.comparingInt(PlannedVisit::start))
                .toList();
        int here = problem.rooms().get(visit.room()).facility();
        int free = span.from();
        int from = who.homeFacility();
        int due = span.to();
        int to = who.homeFacility();
        for (PlannedVisit other : others) {
            if (other.start() < visit.end() && visit.start() < other.end()) {
                return false;
            }
            int there = problem.rooms().get(other.room()).facility();
            if (other.end() <= visit.start() && other.end() >= free) {
                free = other.end();
                from = there;
            }
            if (other.start() >= visit.end() && other.start() < due) {
                due = other.start();
                to = there;
            }
        }
        return free + travel(from, here) <= visit.start() && visit.end() + travel(here, to) <= due;
    }

    private int travel(int from, int to) {
        return problem.travelMinutes().get(from).get(to);
    }

    /** Days beyond tolerance that are left, and the prices of visits and moves. */
    double cost(List<PlannedVisit> visits) {
        double cost = problem.visitDays() * visits.size();
        for (int room = 0; room < problem.rooms().size(); room++) {
            cost += beyondDays(room, visits);
        }
        for (PlannedVisit proposed : problem.proposed()) {
            boolean kept = visits.stream()
                    .anyMatch(visit -> visit.room() == proposed.room()
                            && visit.calibrator() == proposed.calibrator()
                            && visit.start() == proposed.start());
            cost += kept ? 0 : problem.moveDays();
        }
        return cost;
    }

    private double beyondDays(int room, List<PlannedVisit> visits) {
        List<Double> beyond = problem.rooms().get(room).beyondDays();
        return visits.stream()
                .filter(visit -> visit.room() == room)
                .mapToDouble(visit -> beyond.get(dayOf(visit.start())))
                .min()
                .orElse(beyond.get(beyond.size() - 1));
    }

    private int dayOf(int minute) {
        int day = 0;
        while (day + 1 < problem.dayStarts().size() && problem.dayStarts().get(day + 1) <= minute) {
            day++;
        }
        return day;
    }
}
