package panelbook.app.planning;

import java.time.Duration;
import java.util.HashSet;
import org.jspecify.annotations.Nullable;
import panelbook.app.planning.plan.PlanLimits;
import panelbook.app.planning.plan.Planner;
import panelbook.wire.CalibratorDays;

/**
 * How many days of calibrators a plan takes. Of fewer days than there are, those count that save most in the plan of all days;
 * the visits are laid anew into them.
 */
final class WhatIf {

    private static final PlanLimits QUICK = PlanLimits.of(1_000, 0);
    private static final Duration EACH = Duration.ofSeconds(4);

    private final Layout layout;
    private final PlanLimits limits;
    private final Laid all;

    /**
     * Lays the plan of all days.
     *
     * @param limits of the plan that is shown
     */
    WhatIf(Layout layout, PlanLimits limits) {
        this.layout = layout;
        this.limits = limits;
        this.all = new Laid(layout, Planner.plan(layout.problem(day -> true), limits));
    }

    /** The plan with at most so many days; null for all there are. */
    Laid laid(@Nullable Integer calibratorDays) {
        return calibratorDays == null || calibratorDays >= all.bestDays().size() ? all : with(calibratorDays, limits);
    }

    private Laid with(int days, PlanLimits how) {
        var allowed = new HashSet<>(all.bestDays().subList(0, days));
        return new Laid(layout, Planner.plan(layout.problem(allowed::contains), how));
    }

    CalibratorDays days(@Nullable Integer calibratorDays, Laid shown) {
        var there = (int)
                layout.shifts().stream().map(CrewShift::crewDay).distinct().count();
        return new CalibratorDays(
                there,
                calibratorDays == null ? there : Math.min(there, calibratorDays),
                shown.bestDays().size(),
                needed(),
                all.rest().size());
    }

    private int needed() {
        var least = all.rest().size();
        var low = 0;
        var high = all.bestDays().size();
        while (low < high) {
            var middle = (low + high) / 2;
            var rest = with(middle, QUICK.within(EACH, System::nanoTime)).rest().size();
            if (rest <= least) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return high;
    }
}
