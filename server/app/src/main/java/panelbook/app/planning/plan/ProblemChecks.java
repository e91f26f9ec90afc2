package panelbook.app.planning.plan;

import java.util.List;

/** Refuses a problem that contradicts itself, and names the place. */
final class ProblemChecks {
    private ProblemChecks() {}

    /** @throws IllegalArgumentException naming what contradicts what */
    static void check(PlanProblem problem) {
        require(!problem.dayStarts().isEmpty(), "a plan needs at least one day");
        require(problem.dayStarts().get(0) == 0, "the first day must start at 0");
        for (int day = 1; day < problem.dayStarts().size(); day++) {
            require(
                    problem.dayStarts().get(day - 1) < problem.dayStarts().get(day),
                    "day " + day + " must start later");
        }
        require(problem.moveDays() >= 0 && problem.visitDays() >= 0, "prices of moves and visits must be 0 or more");
        checkTravel(problem.travelMinutes());
        for (int room = 0; room < problem.rooms().size(); room++) {
            checkRoom(problem, room);
        }
        for (int calibrator = 0; calibrator < problem.calibrators().size(); calibrator++) {
            PlanCalibrator who = problem.calibrators().get(calibrator);
            checkFacility(problem, who.homeFacility(), "calibrator " + calibrator);
            checkOrder(who.works(), "working spans of calibrator " + calibrator);
        }
        problem.fixed().forEach(visit -> checkVisit(problem, visit, "fixed"));
        problem.proposed().forEach(visit -> checkVisit(problem, visit, "proposed"));
    }

    private static void checkTravel(List<List<Integer>> travel) {
        for (int from = 0; from < travel.size(); from++) {
            require(
                    travel.get(from).size() == travel.size(),
                    "travel from facility " + from + " must name all facilities");
            for (int to = 0; to < travel.size(); to++) {
                require(
                        travel.get(from).get(to) >= 0
                                && (from != to || travel.get(from).get(to) == 0),
                        "travel from facility " + from + " to " + to + " must be 0 or more minutes, and 0 within one");
            }
        }
    }

    private static void checkRoom(PlanProblem problem, int index) {
        PlanRoom room = problem.rooms().get(index);
        String name = "room " + index;
        checkFacility(problem, room.facility(), name);
        require(room.workMinutes() > 0, name + " must take work of more than 0 minutes");
        require(room.warmUpMinutes() >= 0, name + " must take a warm-up of 0 or more minutes");
        checkOrder(room.free(), "free spans of " + name);
        List<Double> beyond = room.beyondDays();
        int days = problem.dayStarts().size();
        require(beyond.size() == days + 1, name + " must have " + (days + 1) + " entries of days beyond tolerance");
        for (int day = 0; day <= days; day++) {
            require(Double.isFinite(beyond.get(day)) && beyond.get(day) >= 0, name + " must have days of 0 or more");
            require(
                    day == 0 || beyond.get(day - 1) <= beyond.get(day),
                    "days beyond tolerance of " + name + " must not fall");
        }
    }

    private static void checkOrder(List<Span> spans, String name) {
        for (int i = 1; i < spans.size(); i++) {
            require(spans.get(i - 1).to() <= spans.get(i).from(), name + " must be in order, without overlap");
        }
    }

    private static void checkFacility(PlanProblem problem, int facility, String name) {
        require(facility >= 0 && facility < problem.travelMinutes().size(), name + " names an unknown facility");
    }

    private static void checkVisit(PlanProblem problem, PlannedVisit visit, String name) {
        require(
                visit.room() >= 0
                        && visit.room() < problem.rooms().size()
                        && visit.calibrator() >= 0
                        && visit.calibrator() < problem.calibrators().size()
                        && visit.start() < visit.end(),
                "a " + name + " visit names an unknown room or calibrator, or ends before it starts: " + visit);
    }

    private static void require(boolean holds, String otherwise) {
        if (!holds) {
            throw new IllegalArgumentException(otherwise);
        }
    }
}
