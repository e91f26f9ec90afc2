package panelbook.app.planning.plan;

import java.time.Duration;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;

/**
 * How hard to look for a plan. The same problem, seed and steps give the same plan, as long as the time is not up.
 *
 * @param seed of the search's random choices
 * @param searchSteps times that part of the plan is taken apart and laid anew, 0 or more
 * @param boundSteps times that the prices behind the bound are adjusted, 0 or more
 * @param timeIsUp asked between steps: what was found so far is the answer then
 */
public record PlanLimits(long seed, int searchSteps, int boundSteps, BooleanSupplier timeIsUp) {
    private static final int SEARCH_STEPS = 600_000;
    private static final int BOUND_STEPS = 3_000;

    public PlanLimits {
        if (searchSteps < 0 || boundSteps < 0) {
            throw new IllegalArgumentException(
                    "a plan needs 0 or more steps, not " + searchSteps + " and " + boundSteps);
        }
    }

    /** Enough for some hundred rooms, without regard to time. */
    public static PlanLimits standard() {
        return of(SEARCH_STEPS, BOUND_STEPS);
    }

    /** So many steps, without regard to time. */
    public static PlanLimits of(int searchSteps, int boundSteps) {
        return new PlanLimits(1, searchSteps, boundSteps, () -> false);
    }

    /**
     * These steps, and no more time than that from now on.
     *
     * @param longest a ceiling, well above what the steps take, else plans come out differently on a busy machine
     * @param nanoTime a clock that never goes back, in nanoseconds
     */
    public PlanLimits within(Duration longest, LongSupplier nanoTime) {
        long end = nanoTime.getAsLong() + longest.toNanos();
        return new PlanLimits(seed, searchSteps, boundSteps, () -> nanoTime.getAsLong() - end >= 0);
    }
}
