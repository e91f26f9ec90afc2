package panelbook.app.planning.plan;

import java.util.Comparator;
import java.util.stream.IntStream;

/** A first plan: what was proposed, as far as it can be kept, then one room after the other at its cheapest place. */
final class Construction {
    private Construction() {}

    static Draft of(Terms terms) {
        Draft draft = new Draft(terms);
        keepProposed(draft);
        openRooms(terms)
                .boxed()
                .filter(room -> !draft.isVisited(room) && terms.candidates[room].length > 0)
                .sorted(Comparator.comparingDouble((Integer room) -> -terms.mostSaved(room))
                        .thenComparing(room -> room))
                .forEach(room -> putBest(draft, room));
        return draft;
    }

    private static IntStream openRooms(Terms terms) {
        return IntStream.range(0, terms.roomCount).filter(terms::isOpen);
    }

    private static void keepProposed(Draft draft) {
        Terms terms = draft.terms;
        openRooms(terms)
                .filter(room -> terms.proposedStart[room] >= 0)
                .boxed()
                .sorted(Comparator.comparing(room -> terms.proposedStart[room]))
                .forEach(room -> keep(draft, room));
    }

    private static void keep(Draft draft, int room) {
        for (int shift : draft.terms.candidates[room]) {
            if (draft.terms.isProposedIn(room, draft.terms.shifts[shift])) {
                Draft.Place place = draft.placeKept(room, shift);
                if (place != null) {
                    draft.put(place);
                }
                return;
            }
        }
    }

    static void putBest(Draft draft, int room) {
        Draft.Place place = draft.bestPlace(room);
        if (place != null) {
            draft.put(place);
        }
    }
}
