package panelbook.app.planning.plan;

/** What no plan of a problem stays below. */
final class Bound {
    private Bound() {}

    /** The bound when each room had the calibrators to itself. */
    static double ofRoomsAlone(Terms terms) {
        double bound = terms.constantCost;
        for (int room = 0; room < terms.roomCount; room++) {
            if (terms.isOpen(room)) {
                int[] shifts = terms.candidates[room];
                double visited = shifts.length == 0 ? Route.IMPOSSIBLE : terms.leastCost(room, shifts[0]);
                bound += Math.min(terms.costWithout(room), visited);
            }
        }
        return bound;
    }
}
