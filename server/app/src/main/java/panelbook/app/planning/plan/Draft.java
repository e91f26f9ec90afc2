package panelbook.app.planning.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.IntConsumer;
import org.jspecify.annotations.Nullable;

/** A plan in the making: what is done in each shift. Every draft keeps the rules. */
final class Draft {
    /** A room that is not visited. */
    static final int NOWHERE = -1;

    /**
     * A place for a stop.
     *
     * @param change of the draft's cost by the stop, against the room's not being visited
     */
    record Place(int shift, int position, int stop, double change) {}

    final Terms terms;
    final Route[] routes;
    /** By room: the shift of its visit, or {@link #NOWHERE}. */
    final int[] where;

    private double cost;
    private double costBefore;
    private final @Nullable Route[] before;
    private final List<Integer> touched = new ArrayList<>();
    private int[] stops = new int[8];
    private int[] starts = new int[8];

    Draft(Terms terms) {
        this.terms = terms;
        routes = Arrays.stream(terms.shifts).map(Route::new).toArray(Route[]::new);
        before = new Route[routes.length];
        where = new int[terms.roomCount];
        Arrays.fill(where, NOWHERE);
        cost = terms.constantCost;
        for (int room = 0; room < terms.roomCount; room++) {
            cost += terms.isOpen(room) ? terms.costWithout(room) : 0;
        }
    }

    /** Weighted days beyond tolerance that are left, and the prices of visits and moves. */
    double cost() {
        return cost;
    }

    boolean isVisited(int room) {
        return where[room] != NOWHERE;
    }

    /** Whether a visited room is visited as was proposed. */
    boolean isKept(int room) {
        Route route = routes[where[room]];
        return terms.proposedCalibrator[room] == route.shift.calibrator()
                && terms.proposedStart[room] == route.starts[positionIn(route, room)];
    }

    /** What the room itself costs as it stands. */
    double costOf(int room) {
        if (where[room] == NOWHERE) {
            return terms.costWithout(room);
        }
        Route route = routes[where[room]];
        return terms.costOfVisit(room, route.shift, route.starts[positionIn(route, room)]);
    }

    /** The cheapest place for an unvisited room among all shifts; none when no place is cheaper than no visit. */
    @Nullable
    Place bestPlace(int room) {
        Place best = null;
        double limit = -Tolerance.COST;
        for (int shift : terms.candidates[room]) {
            if (terms.leastCost(room, shift) - terms.costWithout(room) >= limit) {
                break;
            }
            Place place = bestPlace(room, shift, limit);
            if (place != null) {
                best = place;
                limit = place.change() - Tolerance.COST;
            }
        }
        return best;
    }

    /** The cheapest place for an unvisited room in that shift, if it changes the cost by less than the limit. */
    @Nullable
    Place bestPlace(int room, int shift, double limit) {
        Place place = bestPlace(room, shift, Route.room(room), limit);
        if (!terms.isProposedIn(room, terms.shifts[shift])) {
            return place;
        }
        Place kept = bestPlace(room, shift, Route.kept(room), place == null ? limit : place.change() + Tolerance.COST);
        return kept == null ? place : kept;
    }

    /** The place that keeps the proposed visit of an unvisited room, if that is cheaper than no visit. */
    @Nullable
    Place placeKept(int room, int shift) {
        return bestPlace(room, shift, Route.kept(room), -Tolerance.COST);
    }

    private @Nullable Place bestPlace(int room, int shift, int stop, double limit) {
        Route route = routes[shift];
        double found = limit;
        int position = -1;
        makeSpace(route.count + 1);
        for (int at = 0; at <= route.count; at++) {
            System.arraycopy(route.stops, 0, stops, 0, at);
            stops[at] = stop;
            System.arraycopy(route.stops, at, stops, at + 1, route.count - at);
            double with = Route.schedule(terms, route.shift, stops, route.count + 1, starts);
            double change = with - route.cost - terms.costWithout(room);
            if (change < found) {
                found = change;
                position = at;
            }
        }
        return position < 0 ? null : new Place(shift, position, stop, found);
    }

    /** Whether the work of a room, without travel, is no longer than what is left of a shift. */
    boolean hasTimeFor(int room, int shift) {
        return terms.work[room] <= terms.shifts[shift].to() - terms.shifts[shift].from() - routes[shift].busy;
    }

    private void makeSpace(int count) {
        if (stops.length < count) {
            stops = new int[2 * count];
            starts = new int[2 * count];
        }
    }

    /** Puts an unvisited room where {@code bestPlace} found a place, with nothing changed since. */
    void put(Place place) {
        Route route = routes[place.shift()];
        remember(route);
        int[] with = new int[route.count + 1];
        System.arraycopy(route.stops, 0, with, 0, place.position());
        with[place.position()] = place.stop();
        System.arraycopy(route.stops, place.position(), with, place.position() + 1, route.count - place.position());
        int room = Route.roomOf(place.stop());
        cost -= terms.costWithout(room);
        where[room] = place.shift();
        replace(route, with);
    }

    /**
     * Takes a visit out.
     *
     * @return whether the rest can be done without it, which fails only where a detour is quicker than the way
     */
    boolean take(int room) {
        Route route = routes[where[room]];
        int at = positionIn(route, room);
        int[] without = new int[route.count - 1];
        System.arraycopy(route.stops, 0, without, 0, at);
        System.arraycopy(route.stops, at + 1, without, at, without.length - at);
        makeSpace(without.length);
        if (Route.schedule(terms, route.shift, without, without.length, starts) == Route.IMPOSSIBLE) {
            return false;
        }
        remember(route);
        cost += terms.costWithout(room);
        where[room] = NOWHERE;
        replace(route, without);
        return true;
    }

    private void replace(Route route, int[] with) {
        route.stops = with;
        route.starts = new int[with.length];
        route.count = with.length;
        route.busy = 0;
        forEachRoom(route, room -> route.busy += terms.work[room]);
        double now = Route.schedule(terms, route.shift, with, with.length, route.starts);
        cost += now - route.cost;
        route.cost = now;
    }

    private static int positionIn(Route route, int room) {
        for (int i = 0; i < route.count; i++) {
            if (!Route.isFixed(route.stops[i]) && Route.roomOf(route.stops[i]) == room) {
                return i;
            }
        }
        throw new IllegalStateException("room " + room + " is not in the shift that it is said to be in");
    }

    private void remember(Route route) {
        if (before[route.shift.index()] == null) {
            before[route.shift.index()] = route.copy();
            touched.add(route.shift.index());
        }
    }

    /** From here on changes can be undone by {@link #undo}. */
    void begin() {
        touched.forEach(shift -> before[shift] = null);
        touched.clear();
        costBefore = cost;
    }

    /** The draft as it was at {@link #begin}. */
    void undo() {
        for (int shift : touched) {
            forEachRoom(routes[shift], room -> where[room] = NOWHERE);
        }
        for (int shift : touched) {
            routes[shift] = Objects.requireNonNull(before[shift]);
            forEachRoom(routes[shift], room -> where[room] = shift);
        }
        cost = costBefore;
        begin();
    }

    /** The shifts changed since {@link #begin}. */
    List<Integer> touched() {
        return touched;
    }

    /** What each shift holds, to come back to by {@link #restore}. */
    Route[] snapshot() {
        return Arrays.stream(routes).map(Route::copy).toArray(Route[]::new);
    }

    /** The draft as it was at that snapshot of it, which cost so much. */
    void restore(Route[] snapshot, double itsCost) {
        Arrays.fill(where, NOWHERE);
        for (int shift = 0; shift < routes.length; shift++) {
            int index = shift;
            routes[shift] = snapshot[shift].copy();
            forEachRoom(routes[shift], room -> where[room] = index);
        }
        cost = itsCost;
        begin();
    }

    static void forEachRoom(Route route, IntConsumer use) {
        for (int stop : route.stops) {
            if (!Route.isFixed(stop)) {
                use.accept(Route.roomOf(stop));
            }
        }
    }

    /** The visits, the fixed ones included, by start. */
    List<PlannedVisit> visits() {
        List<PlannedVisit> visits = new ArrayList<>(terms.problem.fixed());
        for (Route route : routes) {
            for (int i = 0; i < route.count; i++) {
                if (!Route.isFixed(route.stops[i])) {
                    int room = Route.roomOf(route.stops[i]);
                    int start = route.starts[i];
                    visits.add(new PlannedVisit(room, route.shift.calibrator(), start, start + terms.work[room]));
                }
            }
        }
        visits.sort(Comparator.comparingInt(PlannedVisit::start)
                .thenComparingInt(PlannedVisit::calibrator)
                .thenComparingInt(PlannedVisit::room));
        return List.copyOf(visits);
    }
}
