package panelbook.app.planning;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import panelbook.app.planning.plan.CalibratorDays;
import panelbook.app.planning.plan.PlanCalibrator;
import panelbook.app.planning.plan.PlanLimits;
import panelbook.app.planning.plan.PlanProblem;
import panelbook.app.planning.plan.PlannedVisit;
import panelbook.app.planning.plan.VisitPlan;
import panelbook.wire.AskedDays;
import panelbook.wire.NeededDays;
import panelbook.wire.TriedDays;

/**
 * How many days of a calibrator keep the rooms of a layout within tolerance, whoever works: each room visited by the day on which
 * the first of its presets is due.
 */
final class WhatIf {

    /** Days at the start within which nobody can be asked for a visit, but no more than this share of the plan. */
    private static final int GRACE_DAYS = 7;

    private static final int GRACE_SHARE = 6;

    private static final PlanLimits EACH = PlanLimits.of(20_000, 300);

    /** For all that are tried together: each takes well under a second in a facility, some seconds with 300 rooms. */
    private static final Duration LONGEST = Duration.ofSeconds(40);

    private final Layout layout;
    private final PlanProblem problem;
    private final PlanCalibrator standard;
    private final CalibratorDays.Allowance allowance;

    private WhatIf(Layout layout, PlanProblem problem) {
        this.layout = layout;
        this.problem = problem;
        standard = CalibratorDays.standardOf(problem);
        allowance = new CalibratorDays.Allowance(
                this::allowed, Math.min(GRACE_DAYS, layout.axis().days() / GRACE_SHARE));
    }

    /** A question; empty when nobody works within the layout, since then nobody knows how long a day is. */
    static Optional<WhatIf> of(Layout layout) {
        return layout.shifts().isEmpty() ? Optional.empty() : Optional.of(new WhatIf(layout, layout.problem()));
    }

    /** What a visit on the day on which the first preset is due leaves; all that there is where nothing is due. */
    private double allowed(int room) {
        var beyond = problem.rooms().get(room).beyondDays();
        var parts = layout.inProblem();
        var axis = layout.axis();
        var due = room < parts.size()
                ? parts.get(room).taken().stream()
                        .map(piece -> piece.due().preset().dueAt())
                        .filter(at -> at != null && at.isBefore(axis.end()))
                        .mapToInt(axis::day)
                        .min()
                        .orElse(axis.days())
                : axis.days();
        return beyond.get(due);
    }

    /** What so many days of a calibrator do. */
    CalibratorDays.Answer asked(int days) {
        return CalibratorDays.of(problem, standard, days, allowance, limits());
    }

    /** The visits of an answer as laid; no bound is known of them. */
    Laid laid(CalibratorDays.Answer answer) {
        var prices =
                Layout.VISIT_DAYS * answer.visits().stream().filter(this::isNew).count();
        return new Laid(layout, new VisitPlan(answer.visits(), answer.beyondDays() + prices, 0));
    }

    private boolean isNew(PlannedVisit visit) {
        return !problem.fixed().contains(visit);
    }

    /** How many days are needed. */
    NeededDays needed(CalibratorDays.@Nullable Answer asked) {
        var need = CalibratorDays.needed(problem, standard, allowance, limits());
        var there = layout.shifts().stream().map(CrewShift::crewDay).distinct().count();
        return new NeededDays(
                (int) there,
                need.least().late().isEmpty() ? need.least().days() : null,
                need.provenAtLeast(),
                need.lateRooms().stream()
                        .map(tried -> new TriedDays(tried.days(), tried.lateRooms()))
                        .toList(),
                names(need.least().lost()),
                asked == null ? null : new AskedDays(asked.days(), names(asked.late())));
    }

    private List<String> names(List<Integer> rooms) {
        var parts = layout.inProblem();
        return rooms.stream()
                .filter(room -> room < parts.size())
                .map(room -> parts.get(room).place().room())
                .distinct()
                .sorted()
                .toList();
    }

    private static PlanLimits limits() {
        return EACH.within(LONGEST, System::nanoTime);
    }
}
