package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;

/**
 * Takes part of the plan apart and lays it anew, many times; a worse plan is sometimes kept, less and less so (ruin and
 * recreate: Schrimpf, Schneider, Stamm-Wilbrandt and Dueck 2000; simulated annealing: Kirkpatrick, Gelatt and Vecchi 1983).
 */
final class Search {
    private static final int MOST_TAKEN = 20;
    private static final double SKIPPED = 0.03;
    /** Temperatures, as shares of what a visit saves on average: a first one for a plan that must still be found. */
    static final double HOT = 0.02;
    /** A first one for a plan that is near a good one. */
    static final double WARM = 0.005;

    private static final double COLD = 0.0003;

    private final Draft draft;
    private final Terms terms;
    private final PlanLimits limits;
    private final Random random;
    private final List<Integer> plannable = new ArrayList<>();
    private final double[] key;
    private final boolean[] taken;
    private final int[] shiftsByTime;

    private Search(Draft draft, PlanLimits limits) {
        this.draft = draft;
        this.terms = draft.terms;
        this.limits = limits;
        random = new Random(limits.seed());
        key = new double[terms.roomCount];
        taken = new boolean[terms.roomCount];
        for (int room = 0; room < terms.roomCount; room++) {
            if (terms.mostSaved(room) > Tolerance.COST) {
                plannable.add(room);
            }
        }
        shiftsByTime = java.util.Arrays.stream(terms.shifts)
                .sorted(Comparator.comparingInt(Shift::from).thenComparingInt(Shift::index))
                .mapToInt(Shift::index)
                .toArray();
    }

    /**
     * Leaves the draft at the cheapest plan found, never a dearer one than before; ends early at the bound.
     *
     * @param first temperature, {@link #HOT} or {@link #WARM}
     */
    static void improve(Draft draft, PlanLimits limits, int steps, double first, double bound) {
        Search search = new Search(draft, limits);
        if (!search.plannable.isEmpty()) {
            search.run(steps, first, bound);
        }
    }

    private void run(int steps, double first, double bound) {
        double average =
                plannable.stream().mapToDouble(terms::mostSaved).average().orElse(0);
        double cooling = Math.pow(COLD / first, 1.0 / Math.max(1, steps));
        double temperature = first * average;
        Route[] best = draft.snapshot();
        double least = draft.cost();
        for (int step = 0; step < steps; step++, temperature *= cooling) {
            if (least <= bound + Tolerance.COST || limits.timeIsUp().getAsBoolean()) {
                break;
            }
            step(temperature);
            if (draft.cost() < least - Tolerance.COST) {
                best = draft.snapshot();
                least = draft.cost();
            }
        }
        draft.restore(best, least);
    }

    private void step(double temperature) {
        double before = draft.cost();
        draft.begin();
        List<Integer> loose = takeSome();
        for (int room : plannable) {
            if (!draft.isVisited(room) && !taken[room]) {
                loose.add(room);
            }
        }
        order(loose);
        for (int room : loose) {
            Draft.Place place = taken[room] ? placeAnywhere(room) : placeWhereSomethingChanged(room);
            if (place != null) {
                draft.put(place);
            }
            taken[room] = false;
        }
        double worse = draft.cost() - before;
        if (worse > 0 && random.nextDouble() >= Math.exp(-worse / temperature)) {
            draft.undo();
        }
    }

    private List<Integer> takeSome() {
        int most = 1 + random.nextInt(Math.min(MOST_TAKEN, plannable.size()));
        List<Integer> result = new ArrayList<>();
        switch (random.nextInt(4)) {
            case 0 -> takeAnyRooms(most, result);
            case 1 -> takeShiftsNear(random.nextInt(shiftsByTime.length), most, result);
            default -> takeWhereWanted(plannable.get(random.nextInt(plannable.size())), most, result);
        }
        return result;
    }

    private void takeAnyRooms(int most, List<Integer> result) {
        for (int i = 0; i < most; i++) {
            take(plannable.get(random.nextInt(plannable.size())), result);
        }
    }

    /** Empties shifts that lie together in time. */
    private void takeShiftsNear(int place, int most, List<Integer> result) {
        for (int i = place; i < shiftsByTime.length && i < place + most && result.size() < most; i++) {
            emptyShift(shiftsByTime[i], result);
        }
    }

    /** Takes a room, and what stands where it would rather be. */
    private void takeWhereWanted(int room, int most, List<Integer> result) {
        double own = draft.costOf(room);
        take(room, result);
        int[] shifts = terms.candidates[room];
        int better = 0;
        while (better < shifts.length && terms.leastCost(room, shifts[better]) < own - Tolerance.COST) {
            better++;
        }
        // of a room that stands well, whatever stands about as well
        int span = Math.max(better, Math.min(shifts.length, most));
        for (int tries = 0; tries < most && result.size() < most; tries++) {
            int shift = shifts[random.nextInt(span)];
            if (random.nextBoolean()) {
                emptyShift(shift, result);
            } else {
                takeOneOf(shift, result);
            }
        }
    }

    private void takeOneOf(int shift, List<Integer> result) {
        int[] stops = draft.routes[shift].stops;
        if (stops.length > 0) {
            int stop = stops[random.nextInt(stops.length)];
            if (!Route.isFixed(stop)) {
                take(Route.roomOf(stop), result);
            }
        }
    }

    private void emptyShift(int shift, List<Integer> result) {
        Draft.forEachRoom(draft.routes[shift], room -> take(room, result));
    }

    private void take(int room, List<Integer> result) {
        if (draft.isVisited(room) && draft.take(room)) {
            taken[room] = true;
            result.add(room);
        }
    }

    private void order(List<Integer> rooms) {
        Collections.shuffle(rooms, random);
        int kind = random.nextInt(4);
        for (int room : rooms) {
            key[room] = switch (kind) {
                case 0 -> 0;
                case 1 -> -terms.mostSaved(room);
                case 2 -> -terms.mostSaved(room) / terms.work[room];
                default -> -terms.work[room];
            };
        }
        rooms.sort(Comparator.comparingDouble(room -> key[room]));
    }

    private Draft.@Nullable Place placeAnywhere(int room) {
        Draft.Place best = null;
        double limit = -Tolerance.COST;
        for (int shift : terms.candidates[room]) {
            if (terms.leastCost(room, shift) - terms.costWithout(room) >= limit) {
                break;
            }
            if (draft.hasTimeFor(room, shift) && random.nextDouble() >= SKIPPED) {
                Draft.Place place = draft.bestPlace(room, shift, limit);
                if (place != null) {
                    best = place;
                    limit = place.change() - Tolerance.COST;
                }
            }
        }
        return best;
    }

    private Draft.@Nullable Place placeWhereSomethingChanged(int room) {
        Draft.Place best = null;
        double limit = -Tolerance.COST;
        for (int shift : draft.touched()) {
            if (terms.allows(room, shift)
                    && terms.leastCost(room, shift) - terms.costWithout(room) < limit
                    && draft.hasTimeFor(room, shift)) {
                Draft.Place place = draft.bestPlace(room, shift, limit);
                if (place != null) {
                    best = place;
                    limit = place.change() - Tolerance.COST;
                }
            }
        }
        return best;
    }
}
