package panelbook.app.planning.plan;

import java.util.Arrays;

/**
 * The most that a single shift could save when each visit has a price: the shift's part of the bound. Exact by branch and
 * bound over sets of rooms, for each set of facilities that the calibrator may travel to; where that takes too many
 * branches, or a shift goes over midnight, the answer may be too high, never too low, so that the bound stays one.
 */
final class ShiftPricing {
    private static final int MOST_BRANCHES = 20_000;
    /** With more facilities the time for travel is left out of the capacity. */
    private static final int MOST_FACILITIES = 4;
    /** Worth per minute is ordered as float: a fill of the rest is the best one but for this share. */
    private static final double ORDER_ROUNDING = 1e-6;

    private static final int ROOM_BITS = 24;

    private final Terms terms;
    private final Feasibility feasibility;
    private final int[][] lastChosen;
    private final long[] order;
    private final double[] gainOfStop;

    // what is on offer in the shift and the facilities looked at, most worth per minute first
    private final int[] stops;
    private final int[] minutes;
    private final double[] gain;
    private int count;

    private Shift shift;
    private int branches;
    private double best;
    private double unsure;
    private final int[] path;
    private int depth;
    private final int[] chosen;
    private int chosenCount;

    ShiftPricing(Terms terms) {
        this.terms = terms;
        feasibility = new Feasibility(terms);
        shift = terms.shifts[0];
        lastChosen = new int[terms.shifts.length][0];
        order = new long[2 * terms.roomCount];
        gainOfStop = new double[2 * terms.roomCount];
        stops = new int[2 * terms.roomCount];
        minutes = new int[2 * terms.roomCount];
        gain = new double[2 * terms.roomCount];
        path = new int[2 * terms.roomCount];
        chosen = new int[2 * terms.roomCount];
    }

    /**
     * Prices a shift.
     *
     * @param prices what a visit must save at least, by room
     * @return what visits in the shift could save above their prices at most, 0 or more
     */
    double mostSaved(Shift theShift, double[] prices) {
        shift = theShift;
        branches = 0;
        unsure = 0;
        int offered = offer(prices);
        startFromLast();
        boolean byFacilities = terms.travel.length <= MOST_FACILITIES && shift.fixedStops().length == 0;
        int all = (1 << terms.travel.length) - 1;
        for (int facilities = byFacilities ? 1 : all; facilities <= all; facilities++) {
            if ((facilities >> shift.home() & 1) == 1 || !byFacilities) {
                collect(offered, facilities);
                branch(0, capacity(byFacilities ? facilities : 0), 0);
            }
        }
        lastChosen[shift.index()] = Arrays.copyOf(chosen, chosenCount);
        return Math.max(best, unsure);
    }

    /** By shift: the stops that save the most, as priced last. */
    int[][] chosen() {
        return lastChosen;
    }

    /** Orders what is worth more than its price by worth per minute. */
    private int offer(double[] prices) {
        int offered = 0;
        for (int room : terms.roomsOf(shift.index())) {
            double free = terms.costWithout(room) - terms.leastCostMoved(room, shift.index()) - prices[room];
            offered = offer(Route.room(room), free, offered);
            if (terms.isProposedIn(room, shift)) {
                double kept = terms.costWithout(room)
                        - terms.costOfVisit(room, shift, terms.proposedStart[room])
                        - prices[room];
                offered = offer(Route.kept(room), kept, offered);
            }
        }
        Arrays.sort(order, 0, offered);
        return offered;
    }

    private int offer(int stop, double worth, int offered) {
        gainOfStop[stop] = worth;
        if (worth <= Tolerance.COST) {
            return offered;
        }
        // positive floating-point numbers are in the order of their bits
        long perMinute = Float.floatToIntBits((float) (worth / terms.work[Route.roomOf(stop)]));
        order[offered] = -(perMinute << ROOM_BITS | stop);
        return offered + 1;
    }

    private void startFromLast() {
        best = 0;
        chosenCount = 0;
        depth = 0;
        for (int stop : lastChosen[shift.index()]) {
            if (gainOfStop[stop] > 0) {
                best += gainOfStop[stop];
                chosen[chosenCount++] = stop;
            }
        }
    }

    private void collect(int offered, int facilities) {
        count = 0;
        for (int i = 0; i < offered; i++) {
            int stop = (int) (-order[i] & (1 << ROOM_BITS) - 1);
            int room = Route.roomOf(stop);
            if ((facilities >> terms.facility[room] & 1) == 1) {
                stops[count] = stop;
                minutes[count] = terms.work[room];
                gain[count] = gainOfStop[stop];
                count++;
            }
        }
    }

    /** Minutes that are left for rooms when the calibrator travels to all these facilities, none for the home alone. */
    private int capacity(int facilities) {
        int left = shift.to() - shift.from();
        int reached = shift.from();
        for (int visit : shift.fixedStops()) {
            int end = Math.min(shift.to(), terms.fixedEnd[visit]);
            left -= Math.max(0, end - Math.max(reached, terms.fixedStart[visit]));
            reached = Math.max(reached, end);
        }
        return left - (facilities == 0 ? 0 : tour(shift.home(), facilities & ~(1 << shift.home())));
    }

    /** The shortest way from a place by all these facilities to the home. */
    private int tour(int place, int facilities) {
        if (facilities == 0) {
            return terms.shortest[place][shift.home()];
        }
        int least = Integer.MAX_VALUE;
        for (int next = 0; next < terms.travel.length; next++) {
            if ((facilities >> next & 1) == 1) {
                least = Math.min(least, terms.shortest[place][next] + tour(next, facilities & ~(1 << next)));
            }
        }
        return least;
    }

    private void branch(int first, int left, double saved) {
        for (int i = first; i < count; i++) {
            double most = saved + mostOfRest(i, left);
            if (most <= best + Tolerance.COST) {
                return;
            }
            if (++branches > MOST_BRANCHES) {
                unsure = Math.max(unsure, most);
                return;
            }
            if (minutes[i] <= left && !isOnPath(stops[i] ^ 1)) {
                path[depth++] = stops[i];
                if (feasibility.canBeDone(shift, path, depth)) {
                    choose(saved + gain[i]);
                    branch(i + 1, left - minutes[i], saved + gain[i]);
                }
                depth--;
            }
        }
    }

    /** Whether the room is there already, at its proposed time or at another. */
    private boolean isOnPath(int stop) {
        for (int i = 0; i < depth; i++) {
            if (path[i] == stop) {
                return true;
            }
        }
        return false;
    }

    private void choose(double saved) {
        if (saved > best) {
            best = saved;
            chosenCount = depth;
            System.arraycopy(path, 0, chosen, 0, depth);
        }
    }

    /** What the stops from that one on could save at most if visits could be cut to length and all be done. */
    private double mostOfRest(int first, int capacity) {
        int left = capacity;
        double sum = 0;
        for (int i = first; i < count && left > 0; i++) {
            if (minutes[i] <= left) {
                sum += gain[i];
                left -= minutes[i];
            } else {
                sum += gain[i] * left / minutes[i];
                left = 0;
            }
        }
        return sum * (1 + ORDER_ROUNDING);
    }
}
