package panelbook.app.planning.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Plans against the rules told anew, against every plan there is, and against themselves. */
class PlannerTest {
    private static final PlanLimits QUICK = PlanLimits.of(2_000, 200);
    private static final double ALIKE = 1e-6;

    static LongStream seeds() {
        return LongStream.range(0, 40);
    }

    @Test
    void costsNoMoreThanTheCheapestOfAllPlansAndTheBoundIsNotAboveIt() {
        int unequal = 0;
        for (long seed = 0; seed < 400; seed++) {
            PlanProblem problem = SmallProblems.of(seed, 4);
            VisitPlan plan = Planner.plan(problem, QUICK);
            double least = EveryPlan.leastCost(problem, SmallProblems.GRID);
            assertThat(plan.cost()).as("cost of problem %d", seed).isGreaterThan(least - ALIKE);
            assertThat(plan.bound()).as("bound of problem %d", seed).isLessThan(least + ALIKE);
            // a plan's bound is capped at its cost, which would hide one that is too high
            double uncapped =
                    Bound.of(Terms.of(problem), QUICK, plan.cost() + 100).bound();
            assertThat(uncapped).as("uncapped bound of problem %d", seed).isLessThan(least + ALIKE);
            unequal += plan.cost() > least + ALIKE ? 1 : 0;
        }
        assertThat(unequal)
                .as("problems of 400 with a plan dearer than the cheapest")
                .isZero();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void keepsTheRulesAndTellsItsCost(long seed) {
        for (PlanProblem problem : List.of(
                SmallProblems.of(1000 + seed, 12), StudioProblems.large(seed, 25, 3, 15, 1 + (int) (seed % 5)))) {
            VisitPlan plan = Planner.plan(problem, QUICK);
            PlanRules rules = new PlanRules(problem);
            assertThat(rules.broken(plan.visits())).isEmpty();
            assertThat(plan.cost()).isCloseTo(rules.cost(plan.visits()), within(ALIKE));
            assertThat(plan.bound()).isLessThanOrEqualTo(plan.cost());
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aPlanThatIsProposedForItsOwnProblemStays(long seed) {
        PlanProblem problem = StudioProblems.large(seed, 25, 3, 15, 1 + (int) (seed % 5));
        VisitPlan plan = Planner.plan(problem, QUICK);
        VisitPlan again = Planner.plan(proposing(problem, plan.visits(), 0), QUICK);
        assertThat(again.visits()).isEqualTo(plan.visits());
        assertThat(again.cost()).isCloseTo(plan.cost(), within(ALIKE));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aNewBookingMovesFewVisits(long seed) {
        PlanProblem problem = StudioProblems.large(seed, 25, 3, 15, 3);
        List<PlannedVisit> visits = Planner.plan(problem, QUICK).visits();
        PlannedVisit hit = visits.get((int) (seed % visits.size()));
        PlanProblem booked = proposing(bookedOver(problem, hit), visits, 3);
        VisitPlan plan = Planner.plan(booked, QUICK);
        assertThat(new PlanRules(booked).broken(plan.visits())).isEmpty();
        assertThat(plan.visits()).doesNotContain(hit);
        assertThat(moved(visits, plan.visits()))
                .as("visits moved by one booking")
                .isBetween(1, 5);
    }

    /** What else moves must save its price: the plan is no dearer than one that leaves everything else as it was. */
    @Test
    void aDayOffMovesTheVisitsOfThatDayAndOnlyOthersThatAreWorthIt() {
        int others = 0;
        for (long seed = 0; seed < 40; seed++) {
            PlanProblem problem = StudioProblems.large(seed, 25, 3, 15, 3);
            List<PlannedVisit> visits = Planner.plan(problem, QUICK).visits();
            PlannedVisit first = visits.get(0);
            int day = first.start() / StudioProblems.DAY;
            List<PlannedVisit> theirs = visits.stream()
                    .filter(visit ->
                            visit.calibrator() == first.calibrator() && visit.start() / StudioProblems.DAY == day)
                    .toList();
            PlanProblem without = proposing(dayOff(problem, first.calibrator(), day), visits, 3);
            VisitPlan plan = Planner.plan(without, QUICK);
            assertThat(new PlanRules(without).broken(plan.visits())).isEmpty();
            assertThat(plan.visits()).doesNotContainAnyElementsOf(theirs);
            assertThat(plan.cost())
                    .as("cost in house %d", seed)
                    .isLessThanOrEqualTo(
                            Planner.plan(fixingOthers(without, theirs), QUICK).cost() + ALIKE);
            others += moved(visits, plan.visits()) - theirs.size();
        }
        assertThat(others).as("visits of others moved by 40 days off").isLessThanOrEqualTo(120);
    }

    @Test
    void givesTheSamePlanEachTime() {
        PlanProblem problem = StudioProblems.large(3, 40, 3, 20, 2);
        assertThat(Planner.plan(problem, QUICK)).isEqualTo(Planner.plan(problem, QUICK));
    }

    @Test
    void whatIsFixedStaysEvenWhereItBreaksEveryRule() {
        PlanProblem problem = StudioProblems.large(5, 10, 2, 10, 3);
        PlannedVisit atNight = new PlannedVisit(0, 1, 10, 50);
        PlannedVisit doubled = new PlannedVisit(1, 1, 30, 70);
        PlannedVisit begun = new PlannedVisit(2, 0, -30, 30);
        List<PlannedVisit> fixed = List.of(begun, atNight, doubled);
        VisitPlan plan = Planner.plan(
                new PlanProblem(
                        problem.dayStarts(),
                        problem.rooms(),
                        problem.calibrators(),
                        problem.travelMinutes(),
                        fixed,
                        List.of(),
                        1,
                        0),
                QUICK);
        assertThat(plan.visits()).containsAll(fixed);
        assertThat(plan.visits().stream().filter(visit -> visit.room() < 3)).hasSize(3);
    }

    @Test
    void withoutRoomsOrCalibratorsThePlanIsEmptyAndCostsWhatIsLeft() {
        PlanProblem problem = StudioProblems.large(5, 10, 0, 10, 3);
        VisitPlan plan = Planner.plan(problem, QUICK);
        assertThat(plan.visits()).isEmpty();
        assertThat(plan.cost())
                .isEqualTo(plan.bound())
                .isCloseTo(new PlanRules(problem).cost(List.of()), within(ALIKE));
        assertThat(Planner.plan(StudioProblems.large(5, 0, 2, 10, 3), QUICK)).isEqualTo(new VisitPlan(List.of(), 0, 0));
    }

    @Test
    void aVisitThatSavesLessThanItsPriceIsNotMade() {
        Span morning = new Span(540, 720);
        PlanCalibrator someone = new PlanCalibrator(new UUID(1, 0), 0, Set.of(), List.of(morning));
        PlanRoom room = new PlanRoom(new UUID(0, 0), 0, Set.of(), 0, 60, List.of(new Span(0, 1440)), List.of(0.0, 1.0));
        assertThat(Planner.plan(oneDay(room, someone, 0.9), QUICK).visits())
                .containsExactly(new PlannedVisit(0, 0, 540, 600));
        assertThat(Planner.plan(oneDay(room, someone, 1.1), QUICK).visits()).isEmpty();
    }

    private static PlanProblem oneDay(PlanRoom room, PlanCalibrator someone, double visitDays) {
        return new PlanProblem(
                List.of(0), List.of(room), List.of(someone), List.of(List.of(0)), List.of(), List.of(), 0, visitDays);
    }

    /** Travel that is quicker by way of a third facility: a plan goes as the table says, the bound takes the short cut. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void keepsTheRulesWhereADetourIsQuicker(long seed) {
        PlanProblem metric = StudioProblems.large(seed, 25, 3, 10, 3);
        PlanProblem problem = new PlanProblem(
                metric.dayStarts(),
                metric.rooms(),
                metric.calibrators(),
                List.of(List.of(0, 20, 200), List.of(20, 0, 30), List.of(200, 30, 0)),
                List.of(),
                List.of(),
                0,
                0.5);
        VisitPlan plan = Planner.plan(problem, QUICK);
        assertThat(new PlanRules(problem).broken(plan.visits())).isEmpty();
        assertThat(plan.bound()).isLessThanOrEqualTo(plan.cost());
    }

    /** The cheapest plan cannot get dearer by help or by freer rooms; so the bound with more stays below the cost with less. */
    @ParameterizedTest
    @MethodSource("seeds")
    void moreCalibratorsNeverLiftTheBoundAboveAPlanWithFewer(long seed) {
        PlanProblem more = StudioProblems.large(seed, 25, 4, 15, 2);
        PlanProblem fewer = new PlanProblem(
                more.dayStarts(),
                more.rooms(),
                more.calibrators().subList(0, 2),
                more.travelMinutes(),
                List.of(),
                List.of(),
                more.moveDays(),
                more.visitDays());
        assertThat(Planner.plan(more, QUICK).bound())
                .isLessThanOrEqualTo(Planner.plan(fewer, QUICK).cost() + ALIKE);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void onSmallProblemsAnotherCalibratorNeverMakesTheCheapestPlanDearer(long seed) {
        PlanProblem problem = SmallProblems.of(seed, 4);
        List<PlanCalibrator> more = new ArrayList<>(problem.calibrators());
        more.add(new PlanCalibrator(new UUID(1, 9), 0, Set.of(), List.of(new Span(480, 720))));
        PlanProblem helped = new PlanProblem(
                problem.dayStarts(),
                problem.rooms(),
                more,
                problem.travelMinutes(),
                problem.fixed(),
                problem.proposed(),
                problem.moveDays(),
                problem.visitDays());
        assertThat(Planner.plan(helped, QUICK).cost())
                .isLessThanOrEqualTo(Planner.plan(problem, QUICK).cost() + ALIKE);
    }

    @Test
    void aProblemThatContradictsItselfIsRefusedWithItsPlace() {
        PlanRoom falling =
                new PlanRoom(new UUID(0, 0), 0, Set.of(), 0, 60, List.of(new Span(0, 1440)), List.of(2.0, 1.0));
        PlanCalibrator someone = new PlanCalibrator(new UUID(1, 0), 4, Set.of(), List.of());
        PlanRoom room = new PlanRoom(new UUID(0, 0), 0, Set.of(), 0, 60, List.of(new Span(0, 1440)), List.of(1.0, 2.0));
        assertThatThrownBy(() -> Planner.plan(oneDay(falling, someone, 0), QUICK))
                .hasMessageContaining("days beyond tolerance of room 0 must not fall");
        assertThatThrownBy(() -> Planner.plan(oneDay(room, someone, 0), QUICK))
                .hasMessageContaining("calibrator 0 names an unknown facility");
    }

    @Test
    void answersWithWhatItHasWhenTimeIsUp() {
        PlanProblem problem = StudioProblems.large(3, 40, 3, 20, 2);
        VisitPlan plan = Planner.plan(problem, new PlanLimits(1, 1_000_000, 1_000_000, () -> true));
        assertThat(new PlanRules(problem).broken(plan.visits())).isEmpty();
        assertThat(plan.bound()).isLessThanOrEqualTo(plan.cost());
    }

    private static PlanProblem proposing(PlanProblem problem, List<PlannedVisit> visits, double moveDays) {
        return new PlanProblem(
                problem.dayStarts(),
                problem.rooms(),
                problem.calibrators(),
                problem.travelMinutes(),
                problem.fixed(),
                visits,
                moveDays,
                problem.visitDays());
    }

    private static PlanProblem fixingOthers(PlanProblem problem, List<PlannedVisit> free) {
        List<PlannedVisit> others = new ArrayList<>(problem.proposed());
        others.removeAll(free);
        return new PlanProblem(
                problem.dayStarts(),
                problem.rooms(),
                problem.calibrators(),
                problem.travelMinutes(),
                others,
                free,
                problem.moveDays(),
                problem.visitDays());
    }

    private static PlanProblem bookedOver(PlanProblem problem, PlannedVisit visit) {
        List<PlanRoom> rooms = new ArrayList<>(problem.rooms());
        PlanRoom room = rooms.get(visit.room());
        List<Span> free = new ArrayList<>();
        for (Span span : room.free()) {
            if (span.to() <= visit.start() || span.from() >= visit.end()) {
                free.add(span);
                continue;
            }
            if (span.from() < visit.start()) {
                free.add(new Span(span.from(), visit.start()));
            }
            if (visit.end() < span.to()) {
                free.add(new Span(visit.end(), span.to()));
            }
        }
        rooms.set(
                visit.room(),
                new PlanRoom(
                        room.id(),
                        room.facility(),
                        room.skills(),
                        room.warmUpMinutes(),
                        room.workMinutes(),
                        free,
                        room.beyondDays()));
        return new PlanProblem(
                problem.dayStarts(),
                rooms,
                problem.calibrators(),
                problem.travelMinutes(),
                problem.fixed(),
                problem.proposed(),
                problem.moveDays(),
                problem.visitDays());
    }

    private static PlanProblem dayOff(PlanProblem problem, int calibrator, int day) {
        List<PlanCalibrator> people = new ArrayList<>(problem.calibrators());
        PlanCalibrator who = people.get(calibrator);
        people.set(
                calibrator,
                new PlanCalibrator(
                        who.id(),
                        who.homeFacility(),
                        who.skills(),
                        who.works().stream()
                                .filter(span -> span.from() / StudioProblems.DAY != day)
                                .toList()));
        return new PlanProblem(
                problem.dayStarts(),
                problem.rooms(),
                people,
                problem.travelMinutes(),
                problem.fixed(),
                problem.proposed(),
                problem.moveDays(),
                problem.visitDays());
    }

    private static int moved(List<PlannedVisit> before, List<PlannedVisit> after) {
        return (int) IntStream.range(0, before.size())
                .filter(i -> !after.contains(before.get(i)))
                .count();
    }
}
