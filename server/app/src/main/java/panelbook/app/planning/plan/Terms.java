package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The problem in the form that planning reads: shifts, starts that a room allows in each, and what each start costs. A
 * room with a fixed visit allows none.
 */
final class Terms {
    /** An answer for a start that is not to be had. */
    static final int NEVER = Integer.MAX_VALUE;

    final PlanProblem problem;
    final int days;
    final int roomCount;
    final Shift[] shifts;
    final int[] facility;
    final int[] work;
    final int[][] travel;
    /** Travel by way of other facilities where that is shorter. */
    final int[][] shortest;

    final int[] fixedStart;
    final int[] fixedEnd;
    final int[] fixedFacility;
    /** By room: shifts that it could be visited in, cheapest first, of like ones the latest first. */
    final int[][] candidates;
    /** By room: calibrator and start of the proposed visit, -1 without one. */
    final int[] proposedCalibrator;

    final int[] proposedStart;
    /** What fixed visits and rooms that cannot be visited cost, whatever is planned. */
    final double constantCost;

    private final int[] dayStarts;
    private final boolean[] open;
    private final double[][] visitCost;
    private final double[] leaveCost;
    private final double[] keptSaves;
    private final int[] @Nullable [][] windows;
    private final double[][] least;
    private final int[][] roomsOfShift;

    private Terms(PlanProblem problem) {
        this.problem = problem;
        days = problem.dayStarts().size();
        roomCount = problem.rooms().size();
        dayStarts = toInts(problem.dayStarts());
        travel = problem.travelMinutes().stream().map(Terms::toInts).toArray(int[][]::new);
        shortest = shortest(travel);
        facility = problem.rooms().stream().mapToInt(PlanRoom::facility).toArray();
        work = problem.rooms().stream().mapToInt(PlanRoom::workMinutes).toArray();
        fixedStart = problem.fixed().stream().mapToInt(PlannedVisit::start).toArray();
        fixedEnd = problem.fixed().stream().mapToInt(PlannedVisit::end).toArray();
        fixedFacility = problem.fixed().stream()
                .mapToInt(visit -> facility[visit.room()])
                .toArray();
        open = openRooms();
        proposedCalibrator = new int[roomCount];
        proposedStart = new int[roomCount];
        leaveCost = new double[roomCount];
        visitCost = new double[roomCount][days];
        keptSaves = new double[roomCount];
        priceRooms();
        shifts = shifts();
        windows = new int[shifts.length][roomCount][];
        least = new double[shifts.length][roomCount];
        candidates = new int[roomCount][];
        for (int room = 0; room < roomCount; room++) {
            candidates[room] = open[room] ? candidatesOf(room) : new int[0];
        }
        roomsOfShift = new int[shifts.length][];
        for (int shift = 0; shift < shifts.length; shift++) {
            int index = shift;
            roomsOfShift[shift] = IntStream.range(0, roomCount)
                    .filter(room -> windows[index][room] != null)
                    .toArray();
        }
        constantCost = costOfFixed();
    }

    static Terms of(PlanProblem problem) {
        ProblemChecks.check(problem);
        return new Terms(problem);
    }

    private static int[] toInts(List<Integer> values) {
        return values.stream().mapToInt(Integer::intValue).toArray();
    }

    private static int[][] shortest(int[][] travel) {
        int[][] result = Arrays.stream(travel).map(int[]::clone).toArray(int[][]::new);
        for (int by = 0; by < result.length; by++) {
            for (int[] row : result) {
                for (int to = 0; to < result.length; to++) {
                    row[to] = Math.min(row[to], row[by] + result[by][to]);
                }
            }
        }
        return result;
    }

    private boolean[] openRooms() {
        boolean[] result = new boolean[roomCount];
        Arrays.fill(result, true);
        problem.fixed().forEach(visit -> result[visit.room()] = false);
        return result;
    }

    private void priceRooms() {
        int[] proposals = new int[roomCount];
        Arrays.fill(proposedCalibrator, -1);
        Arrays.fill(proposedStart, -1);
        for (PlannedVisit visit : problem.proposed()) {
            if (proposals[visit.room()]++ == 0) {
                proposedCalibrator[visit.room()] = visit.calibrator();
                proposedStart[visit.room()] = visit.start();
            }
        }
        for (int room = 0; room < roomCount; room++) {
            List<Double> beyond = problem.rooms().get(room).beyondDays();
            double moves = proposals[room] * problem.moveDays();
            leaveCost[room] = beyond.get(days) + moves;
            keptSaves[room] = proposals[room] == 0 ? 0 : problem.moveDays();
            for (int day = 0; day < days; day++) {
                visitCost[room][day] = beyond.get(day) + problem.visitDays() + moves;
            }
        }
    }

    private Shift[] shifts() {
        List<Shift> result = new ArrayList<>();
        for (int calibrator = 0; calibrator < problem.calibrators().size(); calibrator++) {
            PlanCalibrator who = problem.calibrators().get(calibrator);
            for (Span span : who.works()) {
                int day = dayOf(span.from()) == dayOf(span.to() - 1) ? dayOf(span.from()) : Shift.SEVERAL_DAYS;
                result.add(new Shift(
                        result.size(),
                        calibrator,
                        who.homeFacility(),
                        span.from(),
                        span.to(),
                        day,
                        fixedIn(calibrator, span)));
            }
        }
        return result.toArray(Shift[]::new);
    }

    private int[] fixedIn(int calibrator, Span span) {
        List<Integer> found = new ArrayList<>();
        for (int f = 0; f < fixedStart.length; f++) {
            boolean theirs = problem.fixed().get(f).calibrator() == calibrator;
            if (theirs && fixedStart[f] < span.to() && fixedEnd[f] > span.from()) {
                found.add(f);
            }
        }
        found.sort(Comparator.comparingInt((Integer f) -> fixedStart[f]).thenComparingInt(f -> fixedEnd[f]));
        return toInts(found);
    }

    private int[] candidatesOf(int room) {
        List<Integer> found = new ArrayList<>();
        for (Shift shift : shifts) {
            int[] starts = startsIn(room, shift);
            if (starts.length > 0) {
                windows[shift.index()][room] = starts;
                least[shift.index()][room] = leastCost(room, shift, starts[0]);
                found.add(shift.index());
            }
        }
        found.sort(Comparator.comparingDouble((Integer shift) -> least[shift][room])
                .thenComparing(shift -> -shifts[shift].from())
                .thenComparing(shift -> shift));
        return toInts(found);
    }

    private double leastCost(int room, Shift shift, int earliest) {
        double cost = costOfVisit(room, shift, earliest);
        return isProposedIn(room, shift) ? Math.min(cost, costOfVisit(room, shift, proposedStart[room])) : cost;
    }

    /** First and last start of each window of a room in a shift, one after the other. */
    private int[] startsIn(int room, Shift shift) {
        PlanRoom it = problem.rooms().get(room);
        Set<String> skills = problem.calibrators().get(shift.calibrator()).skills();
        if (!skills.isEmpty() && !skills.containsAll(it.skills())) {
            return new int[0];
        }
        // what is fixed may break the rule that a calibrator comes from home: what follows it is then no sooner there
        int way = shift.fixedStops().length == 0 ? shortest[shift.home()][it.facility()] : 0;
        List<Integer> starts = new ArrayList<>();
        for (Span free : it.free()) {
            int first = Math.max(free.from() + it.warmUpMinutes(), shift.from() + way);
            int last = Math.min(free.to(), shift.to() - way) - it.workMinutes();
            if (first <= last) {
                starts.add(first);
                starts.add(last);
            }
        }
        return toInts(starts);
    }

    private double costOfFixed() {
        double cost = problem.visitDays() * problem.fixed().size();
        double[] left = new double[roomCount];
        Arrays.fill(left, Double.POSITIVE_INFINITY);
        for (PlannedVisit visit : problem.fixed()) {
            List<Double> beyond = problem.rooms().get(visit.room()).beyondDays();
            left[visit.room()] = Math.min(left[visit.room()], beyond.get(dayOf(visit.start())));
        }
        for (int room = 0; room < roomCount; room++) {
            cost += open[room] ? 0 : left[room];
        }
        for (PlannedVisit visit : problem.proposed()) {
            cost += open[visit.room()] || isFixedAt(visit) ? 0 : problem.moveDays();
        }
        return cost;
    }

    private boolean isFixedAt(PlannedVisit proposed) {
        return problem.fixed().stream()
                .anyMatch(visit -> visit.room() == proposed.room()
                        && visit.calibrator() == proposed.calibrator()
                        && visit.start() == proposed.start());
    }

    /** Whether a visit of the room is left to planning. */
    boolean isOpen(int room) {
        return open[room];
    }

    /** The day of a time; times before the first day count to it. */
    int dayOf(int minute) {
        int found = Arrays.binarySearch(dayStarts, minute);
        return Math.max(0, found >= 0 ? found : -found - 2);
    }

    /** What a room costs without a visit. */
    double costWithout(int room) {
        return leaveCost[room];
    }

    /** What a room costs with a visit at that time. */
    double costOfVisit(int room, Shift shift, int start) {
        return costOfVisit(room, shift, start, isProposedAt(room, shift, start));
    }

    private double costOfVisit(int room, Shift shift, int start, boolean kept) {
        double cost = visitCost[room][shift.day() == Shift.SEVERAL_DAYS ? dayOf(start) : shift.day()];
        return kept ? cost - keptSaves[room] : cost;
    }

    private boolean isProposedAt(int room, Shift shift, int start) {
        return proposedStart[room] == start && proposedCalibrator[room] == shift.calibrator();
    }

    /** The rooms that have the shift among their candidates. */
    int[] roomsOf(int shift) {
        return roomsOfShift[shift];
    }

    /** The least that a visit of the room in one of its candidate shifts costs at another time than was proposed. */
    double leastCostMoved(int room, int shift) {
        return costOfVisit(room, shifts[shift], earliest(room, shift, Integer.MIN_VALUE), false);
    }

    /** The most that a visit of the room could save, 0 when none could. */
    double mostSaved(int room) {
        int[] shifts = candidates[room];
        return shifts.length == 0 ? 0 : Math.max(0, leaveCost[room] - least[shifts[0]][room]);
    }

    /** Whether the shift is one of the room's candidates. */
    boolean allows(int room, int shift) {
        return windows[shift][room] != null;
    }

    /** The least that a visit of the room in one of its candidate shifts could cost. */
    double leastCost(int room, int shift) {
        return least[shift][room];
    }

    /** Whether the room's proposed visit could be kept in this shift, if nothing else were in it. */
    boolean isProposedIn(int room, Shift shift) {
        return proposedCalibrator[room] == shift.calibrator()
                && earliest(room, shift.index(), proposedStart[room]) == proposedStart[room];
    }

    /** The earliest start of work that room and shift allow, not before that time; {@link #NEVER} when there is none. */
    int earliest(int room, int shift, int notBefore) {
        int[] starts = windows[shift][room];
        if (starts == null) {
            return NEVER;
        }
        for (int i = 1; i < starts.length; i += 2) {
            if (starts[i] >= notBefore) {
                return Math.max(starts[i - 1], notBefore);
            }
        }
        return NEVER;
    }
}
