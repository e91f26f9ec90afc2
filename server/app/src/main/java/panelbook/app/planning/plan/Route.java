package panelbook.app.planning.plan;

import java.util.Arrays;

/**
 * What is done in a shift, in order. A stop is a fixed visit ({@link #fixed}), a room at the earliest time ({@link #room}),
 * or a room at the very time that was proposed ({@link #kept}).
 *
 * <p>The earliest times are enough: a visit never costs more for being earlier, save that a proposed one costs less at its
 * own time.
 */
final class Route {
    /** The cost of what cannot be done. */
    static final double IMPOSSIBLE = Double.POSITIVE_INFINITY;

    final Shift shift;
    // replaced, never written into: copies share them
    int[] stops;
    int[] starts;
    int count;
    double cost;
    /** Minutes of work in rooms. */
    int busy;

    Route(Shift shift) {
        this.shift = shift;
        count = shift.fixedStops().length;
        stops = fixedStops(shift);
        starts = new int[count];
    }

    private Route(Route other) {
        shift = other.shift;
        stops = other.stops;
        starts = other.starts;
        count = other.count;
        cost = other.cost;
        busy = other.busy;
    }

    Route copy() {
        return new Route(this);
    }

    private static int[] fixedStops(Shift shift) {
        return Arrays.stream(shift.fixedStops()).map(Route::fixed).toArray();
    }

    static int fixed(int visit) {
        return -1 - visit;
    }

    static int room(int room) {
        return 2 * room;
    }

    static int kept(int room) {
        return 2 * room + 1;
    }

    static boolean isFixed(int stop) {
        return stop < 0;
    }

    static boolean isKept(int stop) {
        return (stop & 1) == 1;
    }

    static int roomOf(int stop) {
        return stop >> 1;
    }

    /**
     * Times the stops.
     *
     * @param starts takes the starts of the work of rooms
     * @return what the visits cost, or {@link #IMPOSSIBLE}
     */
    static double schedule(Terms terms, Shift shift, int[] stops, int count, int[] starts) {
        int time = shift.from();
        int place = shift.home();
        boolean ours = false;
        double cost = 0;
        for (int i = 0; i < count; i++) {
            int stop = stops[i];
            if (isFixed(stop)) {
                int visit = -1 - stop;
                int there = terms.fixedFacility[visit];
                if (ours && time + terms.travel[place][there] > terms.fixedStart[visit]) {
                    return IMPOSSIBLE;
                }
                if (terms.fixedEnd[visit] >= time) {
                    time = terms.fixedEnd[visit];
                    place = there;
                }
                ours = false;
                continue;
            }
            int room = roomOf(stop);
            int there = terms.facility[room];
            int start = start(terms, shift, stop, time + terms.travel[place][there]);
            if (start == Terms.NEVER) {
                return IMPOSSIBLE;
            }
            starts[i] = start;
            cost += terms.costOfVisit(room, shift, start);
            time = start + terms.work[room];
            place = there;
            ours = true;
        }
        return ours && time + terms.travel[place][shift.home()] > shift.to() ? IMPOSSIBLE : cost;
    }

    /** When a stop's work starts after an arrival, or {@link Terms#NEVER}. */
    static int start(Terms terms, Shift shift, int stop, int arrival) {
        int room = roomOf(stop);
        if (!isKept(stop)) {
            return terms.earliest(room, shift.index(), arrival);
        }
        return arrival <= terms.proposedStart[room] ? terms.proposedStart[room] : Terms.NEVER;
    }
}
