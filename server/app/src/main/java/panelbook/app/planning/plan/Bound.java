package panelbook.app.planning.plan;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What no plan of a problem stays below: a Lagrangian bound (Geoffrion 1974). The rule that a room is visited once is given
 * up and a price put on its visits instead; each shift then plans for itself. Any prices of 0 or more give a bound; they are
 * adjusted by subgradients (Held, Wolfe and Crowder 1974) that remember the last one (Camerini, Fratta and Maffioli 1975).
 */
final class Bound {
    private static final double MEMORY = 0.3;
    private static final double FIRST_STEP = 1.0;
    private static final double LAST_STEP = 0.0005;
    private static final double SHRINKING = 0.6;
    private static final int PATIENCE = 40;

    /** Every so many steps, once prices have settled, a plan is made of what the shifts chose. */
    private static final int REPAIR_EVERY = 25;

    private static final int SETTLED = 100;

    private final Terms terms;
    private @Nullable Draft cheapest;
    private final ShiftPricing pricing;
    private final double[] prices;
    private final double[] direction;
    private final int[] visits;

    private Bound(Terms terms) {
        this.terms = terms;
        pricing = new ShiftPricing(terms);
        prices = new double[terms.roomCount];
        direction = new double[terms.roomCount];
        visits = new int[terms.roomCount];
    }

    /**
     * A bound and what came with it.
     *
     * @param bound no plan of the problem costs less
     * @param draft the cheapest plan made of what shifts chose at the prices, if any was made
     */
    record Result(double bound, @Nullable Draft draft) {}

    /** The bound when each room had the calibrators to itself. */
    static double ofRoomsAlone(Terms terms) {
        double bound = terms.constantCost;
        for (int room = 0; room < terms.roomCount; room++) {
            if (terms.isOpen(room)) {
                bound += terms.costWithout(room) - terms.mostSaved(room);
            }
        }
        return bound;
    }

    /**
     * The bound when calibrators have one shift's time for each shift.
     *
     * @param known cost of a plan: the bound is never above it, and adjusting ends when it is reached
     */
    static Result of(Terms terms, PlanLimits limits, double known) {
        double alone = ofRoomsAlone(terms);
        if (terms.shifts.length == 0 || alone >= known - Tolerance.COST) {
            return new Result(Math.min(alone, known), null);
        }
        Bound bound = new Bound(terms);
        double raised = bound.raise(limits, known);
        return new Result(Math.min(known, Math.max(alone, raised)), bound.cheapest);
    }

    private double raise(PlanLimits limits, double known) {
        double without = costWithoutPlan();
        double goal = without - known;
        double least = Double.POSITIVE_INFINITY;
        double step = FIRST_STEP;
        int idle = 0;
        double[] rough = RoughPrices.of(terms);
        System.arraycopy(rough, 0, prices, 0, rough.length);
        for (int i = 0;
                i < limits.boundSteps()
                        && step > LAST_STEP
                        && !limits.timeIsUp().getAsBoolean();
                i++) {
            double saved = priceShifts();
            if (saved < least - Tolerance.COST) {
                idle = saved < least * (1 - 1e-5) ? 0 : idle + 1;
                least = saved;
            } else {
                idle++;
            }
            if (least <= goal + Tolerance.COST) {
                break;
            }
            if (idle >= PATIENCE) {
                step *= SHRINKING;
                idle = 0;
            }
            if (i >= SETTLED && i % REPAIR_EVERY == 0) {
                repair();
            }
            adjust(step * (saved - goal));
        }
        return without - least;
    }

    private void repair() {
        Draft draft = Repair.of(terms, pricing.chosen());
        if (cheapest == null || draft.cost() < cheapest.cost()) {
            cheapest = draft;
        }
    }

    private double costWithoutPlan() {
        double cost = terms.constantCost;
        for (int room = 0; room < terms.roomCount; room++) {
            cost += terms.isOpen(room) ? terms.costWithout(room) : 0;
        }
        return cost;
    }

    /** What all could save at most at these prices, and how often each room would be visited. */
    private double priceShifts() {
        double sum = 0;
        Arrays.fill(visits, 0);
        for (double price : prices) {
            sum += price;
        }
        for (Shift shift : terms.shifts) {
            sum += pricing.mostSaved(shift, prices);
            for (int stop : pricing.chosen()[shift.index()]) {
                visits[Route.roomOf(stop)]++;
            }
        }
        return sum;
    }

    private void adjust(double length) {
        double square = 0;
        for (int room = 0; room < prices.length; room++) {
            double tooMany = visits[room] - 1.0;
            // a price of 0 cannot fall
            direction[room] = prices[room] <= 0 && tooMany < 0 ? 0 : tooMany + MEMORY * direction[room];
            square += direction[room] * direction[room];
        }
        if (square == 0) {
            return;
        }
        for (int room = 0; room < prices.length; room++) {
            prices[room] = Math.max(0, prices[room] + length / square * direction[room]);
        }
    }
}
