package panelbook.app.planning.plan;

import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Makes a plan of what each shift chose for itself at the bound's prices: of several shifts that chose a room the cheapest
 * visits it, and rooms that none chose follow at their cheapest places.
 */
final class Repair {
    private Repair() {}

    /**
     * A draft that keeps the rules.
     *
     * @param chosen by shift, the stops it chose
     */
    static Draft of(Terms terms, int[][] chosen) {
        Draft draft = new Draft(terms);
        IntStream.range(0, terms.roomCount).forEach(room -> putWhereChosen(draft, room, chosen));
        IntStream.range(0, terms.roomCount)
                .filter(room -> !draft.isVisited(room) && terms.candidates[room].length > 0)
                .boxed()
                .sorted(Comparator.comparingDouble((Integer room) -> -terms.mostSaved(room) / terms.work[room])
                        .thenComparing(room -> room))
                .forEach(room -> Construction.putBest(draft, room));
        return draft;
    }

    private static void putWhereChosen(Draft draft, int room, int[][] chosen) {
        for (int shift : draft.terms.candidates[room]) {
            Draft.Place place = isChosen(chosen[shift], room) ? draft.bestPlace(room, shift, -Tolerance.COST) : null;
            if (place != null) {
                draft.put(place);
                return;
            }
        }
    }

    private static boolean isChosen(int[] stops, int room) {
        for (int stop : stops) {
            if (Route.roomOf(stop) == room) {
                return true;
            }
        }
        return false;
    }
}
