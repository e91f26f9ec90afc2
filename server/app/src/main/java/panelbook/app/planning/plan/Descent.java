package panelbook.app.planning.plan;

import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/**
 * Goes down to a plan that no single change makes cheaper: visiting one more room, moving one visit, or moving one visit
 * into another's place and that one to the cheapest place left.
 *
 * <p>There is nothing random in it. That is why a plan that ends here and is proposed for the same problem again stays: all
 * changes are the same, and each of them costs the same or, by the price of moves, more.
 */
final class Descent {
    private final Draft draft;
    private final Terms terms;
    private final BooleanSupplier timeIsUp;

    private Descent(Draft draft, BooleanSupplier timeIsUp) {
        this.draft = draft;
        this.terms = draft.terms;
        this.timeIsUp = timeIsUp;
    }

    static void improve(Draft draft, BooleanSupplier timeIsUp) {
        Descent descent = new Descent(draft, timeIsUp);
        while (!timeIsUp.getAsBoolean() && descent.pass()) {
            // once more, until nothing helps
        }
    }

    private boolean pass() {
        boolean improved = false;
        for (int room = 0; room < terms.roomCount; room++) {
            improved |= terms.candidates[room].length > 0 && (move(room) || moveAnother(room));
        }
        return improved;
    }

    /** Moves a room to its cheapest place, or visits it, or leaves its visit out. */
    private boolean move(int room) {
        double cost = draft.cost();
        draft.begin();
        if (draft.isVisited(room) && !draft.take(room)) {
            return false;
        }
        Draft.Place place = draft.bestPlace(room);
        if (place != null) {
            draft.put(place);
        }
        return keepIfBelow(cost);
    }

    private boolean keepIfBelow(double cost) {
        if (draft.cost() < cost - Tolerance.COST) {
            return true;
        }
        draft.undo();
        return false;
    }

    /** Moves a room into the place of another one. */
    private boolean moveAnother(int room) {
        double own = draft.costOf(room);
        for (int shift : terms.candidates[room]) {
            if (terms.leastCost(room, shift) >= own - Tolerance.COST || timeIsUp.getAsBoolean()) {
                return false;
            }
            for (int stop : draft.routes[shift].stops) {
                boolean other = !Route.isFixed(stop) && Route.roomOf(stop) != room;
                if (other && displace(room, Route.roomOf(stop), shift)) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean displace(int room, int other, int shift) {
        double cost = draft.cost();
        draft.begin();
        if (draft.take(other) && (!draft.isVisited(room) || draft.take(room))) {
            Draft.Place place = draft.bestPlace(room, shift, -Tolerance.COST);
            if (place != null) {
                draft.put(place);
                Draft.Place others = mayEndBelow(cost, other) ? draft.bestPlace(other) : null;
                put(others);
            }
        }
        return keepIfBelow(cost);
    }

    /** Whether the cheapest place of the other one, if it were free, would make the draft cheaper than that. */
    private boolean mayEndBelow(double cost, int other) {
        double saved = terms.costWithout(other) - terms.leastCost(other, terms.candidates[other][0]);
        return draft.cost() - saved < cost - Tolerance.COST;
    }

    private void put(Draft.@Nullable Place place) {
        if (place != null) {
            draft.put(place);
        }
    }
}
