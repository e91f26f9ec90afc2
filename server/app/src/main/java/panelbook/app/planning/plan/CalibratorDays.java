package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * What so many days of a calibrator would keep within tolerance. The days are those of a standard calibrator, spread evenly
 * over the horizon; the people of the problem do nothing but their fixed visits, and proposals are left aside.
 *
 * <p>A room is kept when its visit leaves no more days beyond tolerance than are allowed for. Keeping rooms comes first:
 * only then do the days count that the others are left with. A room whose visit would have to lie within the days of grace,
 * or when it is booked or nobody works, is lost: no number of days keeps it. The days are to be enough for a visit to it within
 * the horizon all the same, where one can be had at all.
 */
public final class CalibratorDays {
    /** No more days are tried than so many times those of the standard calibrator. */
    private static final int MOST_AT_ONCE = 16;

    private static final double SURELY_LATE = 1e-6;

    private final PlanProblem problem;
    private final PlanCalibrator standard;
    private final Allowance allowance;
    private final PlanLimits limits;
    private final Terms terms;
    private final List<List<Span>> workingDays;
    /** By room: the last day on which a visit keeps it, the horizon's length when it needs none, -1 when it is lost. */
    private final int[] keepingDays;

    /** By room: the last day on which a visit is asked for, the horizon's length when none is, -1 when none can be had. */
    private final int[] lastDays;

    /**
     * What counts as kept.
     *
     * @param leftDays weighted days beyond tolerance that a kept room may be left with, by room, 0 or more
     * @param graceDays days at the start within which no visit can be asked for, 0 or more
     */
    public record Allowance(IntToDoubleFunction leftDays, int graceDays) {
        public Allowance {
            if (graceDays < 0) {
                throw new IllegalArgumentException("days of grace must be 0 or more");
            }
        }

        /** The same for all rooms. */
        public Allowance(double leftDays, int graceDays) {
            this(room -> leftDays, graceDays);
            if (!(leftDays >= 0)) {
                throw new IllegalArgumentException("days left must be 0 or more");
            }
        }
    }

    /**
     * What so many days do.
     *
     * @param days of the standard calibrator
     * @param beyondDays weighted days beyond tolerance that are left in all rooms
     * @param late rooms that more days could keep and this plan does not, and lost ones that more days could visit, by index
     * @param lost rooms that no number of days keeps, by index
     * @param visits planned; calibrators after the problem's own are the standard one, as many times as needed
     */
    public record Answer(
            int days, double beyondDays, List<Integer> late, List<Integer> lost, List<PlannedVisit> visits) {}

    /**
     * How many days are needed.
     *
     * @param least what the least number of days does that was found to keep all rooms but the lost, and to visit these; with
     *     late rooms when not even the most that were tried do
     * @param provenAtLeast no fewer days keep them, spread as they are
     * @param lateRooms by the days that were tried: how many rooms were late, for a curve
     */
    public record Need(Answer least, int provenAtLeast, List<Tried> lateRooms) {}

    /** A number of days that was tried, and the rooms that were late with it. */
    public record Tried(int days, int lateRooms) {}

    private CalibratorDays(PlanProblem problem, PlanCalibrator standard, Allowance allowance, PlanLimits limits) {
        this.problem = problem;
        this.standard = standard;
        this.allowance = allowance;
        this.limits = limits;
        terms = Terms.of(with(List.of(standard)));
        workingDays = workingDays();
        keepingDays = rooms().map(this::keepingDay).toArray();
        lastDays = rooms().map(this::lastDay).toArray();
    }

    /**
     * What that many days do.
     *
     * @param standard who the days are days of: home, skills, and working spans on every day that work is possible
     * @param days 0 or more; more than the standard calibrator has are days of several at once
     * @param limits of each of the two plans that are made
     * @throws IllegalArgumentException when the problem contradicts itself, or the standard calibrator never works
     */
    public static Answer of(
            PlanProblem problem, PlanCalibrator standard, int days, Allowance allowance, PlanLimits limits) {
        if (days < 0 || standard.works().isEmpty()) {
            throw new IllegalArgumentException("days must be 0 or more, and of a calibrator who works");
        }
        CalibratorDays question = new CalibratorDays(problem, standard, allowance, limits);
        return question.answer(days, question.keeping(days));
    }

    /**
     * The least number of days that keep all rooms but the lost, and visit these: by halving, as if more days never kept less.
     *
     * @param limits of each plan that is made, about ten
     * @throws IllegalArgumentException as {@link #of} does
     */
    public static Need needed(PlanProblem problem, PlanCalibrator standard, Allowance allowance, PlanLimits limits) {
        if (standard.works().isEmpty()) {
            throw new IllegalArgumentException("days must be of a calibrator who works");
        }
        return new CalibratorDays(problem, standard, allowance, limits).need();
    }

    /**
     * A standard calibrator for a problem: all skills, at home where most rooms are, with the hours of whoever works most.
     *
     * @throws IllegalArgumentException when nobody works
     */
    public static PlanCalibrator standardOf(PlanProblem problem) {
        PlanCalibrator busiest = problem.calibrators().stream()
                .filter(who -> !who.works().isEmpty())
                .max(Comparator.comparingInt(CalibratorDays::minutes))
                .orElseThrow(() -> new IllegalArgumentException("no calibrator of the problem works"));
        int[] rooms = new int[problem.travelMinutes().size()];
        problem.rooms().forEach(room -> rooms[room.facility()]++);
        int home = IntStream.range(0, rooms.length)
                .reduce((one, other) -> rooms[other] > rooms[one] ? other : one)
                .orElse(busiest.homeFacility());
        return new PlanCalibrator(new UUID(0, 0), home, Set.of(), busiest.works());
    }

    private static int minutes(PlanCalibrator who) {
        return who.works().stream().mapToInt(span -> span.to() - span.from()).sum();
    }

    private List<List<Span>> workingDays() {
        TreeMap<Integer, List<Span>> byDay = new TreeMap<>();
        for (Span span : standard.works()) {
            byDay.computeIfAbsent(terms.dayOf(span.from()), day -> new ArrayList<>())
                    .add(span);
        }
        return List.copyOf(byDay.values());
    }

    private int lastDay(int room) {
        return keepingDays[room] >= 0 ? keepingDays[room] : earliestDay(room) < terms.days ? terms.days - 1 : -1;
    }

    private int keepingDay(int room) {
        double allowed = allowance.leftDays().applyAsDouble(room);
        List<Double> beyond = problem.rooms().get(room).beyondDays();
        int last = (int) beyond.stream().filter(left -> left <= allowed).count() - 1;
        if (last == terms.days) {
            return last;
        }
        boolean tooSoon = last < Math.min(allowance.graceDays(), terms.days);
        return tooSoon || earliestDay(room) > last ? -1 : last;
    }

    /** The day of a room's fixed visit, or else of the first that could be had; the horizon's length without one. */
    private int earliestDay(int room) {
        if (!terms.isOpen(room)) {
            return dayOfVisit(problem.fixed(), room);
        }
        return IntStream.of(terms.candidates[room])
                .map(shift -> terms.dayOf(terms.earliest(room, shift, Integer.MIN_VALUE)))
                .min()
                .orElse(terms.days);
    }

    private Need need() {
        TreeMap<Integer, VisitPlan> tried = new TreeMap<>();
        int most = MOST_AT_ONCE * workingDays.size();
        int tooFew = -1;
        int days = Math.min(most, roughNeed());
        while (lateIn(tried.computeIfAbsent(days, this::keeping)) > 0 && days < most) {
            tooFew = days;
            days = Math.min(most, days + 1 + days / 2);
        }
        while (days - tooFew > 1 && lateIn(tried.computeIfAbsent(days, this::keeping)) == 0) {
            int middle = (tooFew + days) / 2;
            if (lateIn(tried.computeIfAbsent(middle, this::keeping)) == 0) {
                days = middle;
            } else {
                tooFew = middle;
            }
        }
        int proven = tried.entrySet().stream()
                .filter(entry -> entry.getValue().bound() > SURELY_LATE)
                .mapToInt(entry -> entry.getKey() + 1)
                .max()
                .orElse(0);
        List<Tried> curve = tried.entrySet().stream()
                .map(entry -> new Tried(entry.getKey(), lateIn(entry.getValue())))
                .toList();
        return new Need(answer(days, tried.computeIfAbsent(days, this::keeping)), proven, curve);
    }

    /** Days enough for the work that is needed, and a quarter more. */
    private int roughNeed() {
        int work = IntStream.range(0, terms.roomCount)
                .filter(room -> terms.isOpen(room) && lastDays[room] >= 0 && lastDays[room] < terms.days)
                .map(room -> terms.work[room])
                .sum();
        return (int) Math.ceil(1.25 * work * workingDays.size() / minutes(standard));
    }

    /** The plan with the fewest late rooms; its cost is their number. */
    private VisitPlan keeping(int days) {
        List<PlanRoom> rooms = IntStream.range(0, terms.roomCount)
                .mapToObj(room -> leaving(room, day -> isLate(room, day) ? 1.0 : 0.0))
                .toList();
        return Planner.plan(with(standardFor(days), rooms, List.of(), 0), limits);
    }

    /**
     * A plan with few days beyond tolerance that keeps as many rooms. Being late costs twice the most days that a room can
     * have: enough for it hardly ever to be worth it, and little enough for the search to see the days.
     */
    private Answer answer(int days, VisitPlan keeping) {
        double late = 2
                * IntStream.range(0, terms.roomCount)
                        .mapToDouble(room -> beyondDays(room, terms.days))
                        .max()
                        .orElse(0);
        List<PlanRoom> rooms = IntStream.range(0, terms.roomCount)
                .mapToObj(room -> leaving(room, day -> beyondDays(room, day) + (isLate(room, day) ? late : 0)))
                .toList();
        List<PlannedVisit> start = new ArrayList<>(keeping.visits());
        start.removeAll(problem.fixed());
        List<PlannedVisit> fewer = Planner.plan(with(standardFor(days), rooms, start, problem.visitDays()), limits)
                .visits();
        boolean asManyKept =
                lateRooms(fewer).size() <= lateRooms(keeping.visits()).size();
        return answer(days, asManyKept ? fewer : keeping.visits());
    }

    private Answer answer(int days, List<PlannedVisit> visits) {
        return new Answer(
                days,
                IntStream.range(0, terms.roomCount)
                        .mapToDouble(room -> beyondDays(room, dayOfVisit(visits, room)))
                        .sum(),
                lateRooms(visits),
                rooms(room -> keepingDays[room] < 0),
                visits);
    }

    private List<Integer> lateRooms(List<PlannedVisit> visits) {
        return rooms(room -> isLate(room, dayOfVisit(visits, room)));
    }

    private boolean isLate(int room, int day) {
        return lastDays[room] >= 0 && day > lastDays[room];
    }

    private int lateIn(VisitPlan keeping) {
        return (int) Math.round(keeping.cost());
    }

    private List<Integer> rooms(IntPredicate which) {
        return rooms().filter(which).boxed().toList();
    }

    private IntStream rooms() {
        return IntStream.range(0, terms.roomCount);
    }

    private double beyondDays(int room, int day) {
        return problem.rooms().get(room).beyondDays().get(day);
    }

    private int dayOfVisit(List<PlannedVisit> visits, int room) {
        return visits.stream()
                .filter(visit -> visit.room() == room)
                .mapToInt(visit -> terms.dayOf(visit.start()))
                .min()
                .orElse(terms.days);
    }

    private interface LeftDays {
        double by(int day);
    }

    private PlanRoom leaving(int index, LeftDays left) {
        PlanRoom room = problem.rooms().get(index);
        return new PlanRoom(
                room.id(),
                room.facility(),
                room.skills(),
                room.warmUpMinutes(),
                room.workMinutes(),
                room.free(),
                IntStream.rangeClosed(0, terms.days).mapToObj(left::by).toList());
    }

    /** The standard calibrator as often as it takes, the last one with days spread evenly. */
    private List<PlanCalibrator> standardFor(int days) {
        List<PlanCalibrator> result = new ArrayList<>();
        for (int left = days; left > 0; left -= workingDays.size()) {
            int count = Math.min(left, workingDays.size());
            List<Span> works = IntStream.range(0, count)
                    .map(i -> (2 * i + 1) * workingDays.size() / (2 * count))
                    .mapToObj(workingDays::get)
                    .flatMap(List::stream)
                    .toList();
            result.add(
                    new PlanCalibrator(new UUID(0, result.size()), standard.homeFacility(), standard.skills(), works));
        }
        return result;
    }

    private PlanProblem with(List<PlanCalibrator> standards) {
        return with(standards, problem.rooms(), List.of(), problem.visitDays());
    }

    private PlanProblem with(
            List<PlanCalibrator> standards, List<PlanRoom> rooms, List<PlannedVisit> start, double visitDays) {
        List<PlanCalibrator> people = new ArrayList<>();
        problem.calibrators()
                .forEach(who -> people.add(new PlanCalibrator(who.id(), who.homeFacility(), who.skills(), List.of())));
        people.addAll(standards);
        return new PlanProblem(
                problem.dayStarts(), rooms, people, problem.travelMinutes(), problem.fixed(), start, 0, visitDays);
    }
}
