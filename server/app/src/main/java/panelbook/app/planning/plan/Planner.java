package panelbook.app.planning.plan;

/** Lays visits into calibrators' working spans and rooms' free hours. */
public final class Planner {
    /** One of so many steps is spent before the bound is known, the others after, from a plan that the bound leads to. */
    private static final int FIRST_SHARE = 6;

    private Planner() {}

    /**
     * A plan of least cost, as near as the limits allow.
     *
     * <p>What it keeps: at most one visit of a room, none of a room with a fixed one; warm-up and work within one free span
     * of the room; the work within one working span of a calibrator with the skills; the calibrator leaves home at the start
     * of the span, is back at its end, and travels between consecutive visits. Fixed visits stay as they are, even where
     * they break a rule. The same problem and limits give the same plan. A problem that a plan's own visits are proposed for
     * and that is otherwise unchanged gives the same visits.
     *
     * @param problem what is to be planned
     * @param limits how hard to look
     * @return the plan with its cost and a bound that no plan of the problem stays below, in weighted days beyond tolerance
     * @throws IllegalArgumentException when the problem contradicts itself: it says where
     */
    public static VisitPlan plan(PlanProblem problem, PlanLimits limits) {
        Terms terms = Terms.of(problem);
        Draft draft = Construction.of(terms);
        Descent.improve(draft, limits.timeIsUp());
        if (!problem.proposed().isEmpty()) {
            return replanned(draft, limits);
        }
        int firstSteps = limits.searchSteps() / FIRST_SHARE;
        Search.improve(draft, limits, firstSteps, Search.HOT, Bound.ofRoomsAlone(terms));
        Bound.Result result = Bound.of(terms, limits, draft.cost());
        Draft best = furtherSearched(draft, result, limits, limits.searchSteps() - firstSteps);
        Descent.improve(best, limits.timeIsUp());
        return plan(best, result.bound());
    }

    private static Draft furtherSearched(Draft draft, Bound.Result result, PlanLimits limits, int steps) {
        if (result.bound() >= draft.cost() - Tolerance.COST) {
            return draft;
        }
        if (result.draft() == null) {
            Search.improve(draft, limits, steps, Search.WARM, result.bound());
            return draft;
        }
        Search.improve(result.draft(), limits, steps, Search.WARM, result.bound());
        return result.draft().cost() < draft.cost() ? result.draft() : draft;
    }

    /** From what was proposed, so that what moves must be worth it. */
    private static VisitPlan replanned(Draft draft, PlanLimits limits) {
        if (!staysAsProposed(draft)) {
            Search.improve(draft, limits, limits.searchSteps(), Search.HOT, Bound.ofRoomsAlone(draft.terms));
            Descent.improve(draft, limits.timeIsUp());
        }
        return plan(draft, Bound.of(draft.terms, limits, draft.cost()).bound());
    }

    private static VisitPlan plan(Draft draft, double bound) {
        return new VisitPlan(draft.visits(), draft.cost(), Math.min(draft.cost(), bound));
    }

    /** Whether there were proposals, all are kept and nothing is added: then there is no reason to move any of them. */
    private static boolean staysAsProposed(Draft draft) {
        Terms terms = draft.terms;
        boolean any = false;
        for (int room = 0; room < terms.roomCount; room++) {
            boolean proposed = terms.isOpen(room) && terms.proposedStart[room] >= 0;
            any |= proposed;
            if (draft.isVisited(room) ? !proposed || !draft.isKept(room) : proposed) {
                return false;
            }
        }
        return any;
    }
}
