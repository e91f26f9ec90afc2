package panelbook.app.planning.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Days that keep rooms within tolerance, against cases that can be counted by hand and against the rules. */
class CalibratorDaysTest {
    private static final PlanLimits QUICK = PlanLimits.of(2_000, 200);
    private static final CalibratorDays.Allowance NONE_LEFT = new CalibratorDays.Allowance(0, 0);
    private static final int DAYS = 10;

    /** Two rooms of four hours fill a day of eight; all ten are due by the evening of day 9: five days, any of them. */
    @Test
    void countsDaysThatVisitsFill() {
        PlanProblem problem =
                problem(IntStream.range(0, 10).mapToObj(i -> room(i, 240, DAYS)).toList());
        CalibratorDays.Need need = CalibratorDays.needed(problem, standard(), NONE_LEFT, QUICK);
        assertThat(need.least().days()).isEqualTo(5);
        assertThat(need.provenAtLeast()).isEqualTo(5);
        assertThat(need.least().late()).isEmpty();
        assertThat(need.least().beyondDays()).isZero();
        assertThat(need.lateRooms()).contains(new CalibratorDays.Tried(4, 2));
    }

    @Test
    void withTooFewDaysTellsWhichRoomsAreLateAndWhatIsLeft() {
        PlanProblem problem =
                problem(IntStream.range(0, 10).mapToObj(i -> room(i, 240, DAYS)).toList());
        CalibratorDays.Answer answer = CalibratorDays.of(problem, standard(), 3, NONE_LEFT, QUICK);
        assertThat(answer.late()).hasSize(4);
        assertThat(answer.lost()).isEmpty();
        assertThat(answer.beyondDays()).isEqualTo(4);
        assertThat(CalibratorDays.of(problem, standard(), 0, NONE_LEFT, QUICK).late())
                .hasSize(10);
    }

    /** Six rooms of a whole day's work due by the end of day 1, and only two days until then: three people at once. */
    @Test
    void asksForSeveralCalibratorsAtOnceWhereOneHasTooFewDays() {
        PlanProblem problem =
                problem(IntStream.range(0, 6).mapToObj(i -> room(i, 480, 2)).toList());
        CalibratorDays.Need need = CalibratorDays.needed(problem, standard(), NONE_LEFT, QUICK);
        assertThat(need.least().late()).isEmpty();
        assertThat(need.least().days()).isBetween(2 * DAYS + 2, 3 * DAYS);
    }

    @Test
    void roomsThatAreLateAlreadyAreLostAndAskForNoDays() {
        PlanProblem problem = problem(List.of(room(0, 60, 0), room(1, 60, 2), room(2, 60, 8), room(3, 60, DAYS + 1)));
        CalibratorDays.Need need =
                CalibratorDays.needed(problem, standard(), new CalibratorDays.Allowance(0, 3), QUICK);
        assertThat(need.least().lost()).containsExactly(0, 1);
        assertThat(need.least().days()).isEqualTo(1);
        assertThat(need.least().late()).isEmpty();
    }

    @Test
    void fixedVisitsKeepTheirRoomsWithoutAnyDays() {
        PlanProblem problem = problem(List.of(room(0, 60, 5)));
        List<PlannedVisit> fixed = List.of(new PlannedVisit(0, 0, 3 * 1440 + 600, 3 * 1440 + 660));
        PlanProblem kept = new PlanProblem(
                problem.dayStarts(),
                problem.rooms(),
                List.of(standard()),
                problem.travelMinutes(),
                fixed,
                List.of(),
                1,
                0);
        assertThat(CalibratorDays.needed(kept, standard(), NONE_LEFT, QUICK)
                        .least()
                        .days())
                .isZero();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void inMadeUpHousesTheNeedKeepsAllThatIsNotLostByTheRules(long seed) {
        PlanProblem problem = StudioProblems.large(seed, 30, 3, 20, 5);
        PlanCalibrator standard = CalibratorDays.standardOf(problem);
        CalibratorDays.Allowance allowance = new CalibratorDays.Allowance(2, 4);
        CalibratorDays.Need need = CalibratorDays.needed(problem, standard, allowance, QUICK);
        CalibratorDays.Answer least = need.least();
        assertThat(least.late()).isEmpty();
        assertThat(need.provenAtLeast()).isLessThanOrEqualTo(least.days());
        assertThat(least.visits().stream()
                        .map(visit -> visit.calibrator() + " " + visit.start() / 1440)
                        .distinct())
                .hasSizeLessThanOrEqualTo(least.days());
        assertThat(new PlanRules(copies(problem, standard, 16)).broken(least.visits()))
                .isEmpty();
        assertThat(CalibratorDays.of(problem, standard, least.days(), allowance, QUICK))
                .isEqualTo(least);
    }

    @Test
    void refusesDaysOfSomeoneWhoNeverWorks() {
        PlanCalibrator idle = new PlanCalibrator(new UUID(0, 0), 0, Set.of(), List.of());
        assertThatThrownBy(() -> CalibratorDays.of(problem(List.of()), idle, 2, NONE_LEFT, QUICK))
                .hasMessageContaining("a calibrator who works");
    }

    private static PlanProblem copies(PlanProblem problem, PlanCalibrator standard, int count) {
        List<PlanCalibrator> people = new ArrayList<>(problem.calibrators());
        IntStream.range(0, count).forEach(i -> people.add(standard));
        return new PlanProblem(
                problem.dayStarts(), problem.rooms(), people, problem.travelMinutes(), List.of(), List.of(), 0, 0);
    }

    private static PlanCalibrator standard() {
        List<Span> works = IntStream.range(0, DAYS)
                .mapToObj(day -> new Span(day * 1440 + 540, day * 1440 + 1020))
                .toList();
        return new PlanCalibrator(new UUID(1, 1), 0, Set.of(), works);
    }

    /** A room that is free always, and a day beyond tolerance when not visited before that day. */
    private static PlanRoom room(int index, int minutes, int beyondFrom) {
        List<Double> beyond = IntStream.rangeClosed(0, DAYS)
                .mapToObj(day -> day >= beyondFrom ? 1.0 : 0.0)
                .toList();
        return new PlanRoom(new UUID(0, index), 0, Set.of(), 0, minutes, List.of(new Span(0, DAYS * 1440)), beyond);
    }

    private static PlanProblem problem(List<PlanRoom> rooms) {
        return new PlanProblem(
                IntStream.range(0, DAYS).map(day -> day * 1440).boxed().toList(),
                rooms,
                List.of(standard()),
                List.of(List.of(0)),
                List.of(),
                List.of(),
                1,
                0);
    }
}
