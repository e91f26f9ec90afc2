package panelbook.app.planning.plan;

import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * Whether rooms can be done in one shift in some order, beside what is fixed in it. Ways by other facilities are allowed
 * where they are shorter, so that fewer rooms can always be done when more can. Answers are remembered.
 */
final class Feasibility {
    private static final int MOST_TRIED = 3_000;
    private static final int FIRST_SIZE = 1 << 16;
    private static final int MOST_REMEMBERED = 1 << 21;

    private final Terms terms;
    private final long[] stopSign;
    private final long[] shiftSign;
    private long[] known = new long[FIRST_SIZE];
    private int remembered;

    private Shift shift;
    private int[] stops = {};
    private int count;
    private boolean[] used = new boolean[16];
    private int tried;

    Feasibility(Terms terms) {
        this.terms = terms;
        shift = terms.shifts[0];
        SplittableRandom random = new SplittableRandom(1);
        stopSign = random.longs(2L * terms.roomCount).toArray();
        shiftSign = random.longs(terms.shifts.length).toArray();
    }

    /**
     * Looks for an order.
     *
     * @param theStops {@link Route#room} and {@link Route#kept} stops, the first {@code theCount} of them
     * @return false when there is no order; true when there is one, or when too many would have to be tried
     */
    boolean canBeDone(Shift theShift, int[] theStops, int theCount) {
        long key = shiftSign[theShift.index()];
        for (int i = 0; i < theCount; i++) {
            key ^= stopSign[theStops[i]];
        }
        // the lowest bit holds the answer, 0 stands for an empty slot
        key |= 2;
        int slot = slotOf(key);
        if (known[slot] != 0) {
            return (known[slot] & 1) == 1;
        }
        shift = theShift;
        stops = theStops;
        count = theCount;
        tried = 0;
        if (used.length < count) {
            used = new boolean[2 * count];
        }
        Arrays.fill(used, false);
        boolean answer = order(shift.from(), shift.home(), false, 0, 0);
        remember(slot, key & ~1L | (answer ? 1 : 0));
        return answer;
    }

    private int slotOf(long key) {
        int slot = (int) (key >>> 32) & (known.length - 1);
        while (known[slot] != 0 && (known[slot] | 1) != (key | 1)) {
            slot = (slot + 1) & (known.length - 1);
        }
        return slot;
    }

    private void remember(int slot, long entry) {
        known[slot] = entry;
        if (++remembered <= known.length / 2) {
            return;
        }
        long[] old = known;
        remembered = 0;
        if (old.length >= MOST_REMEMBERED) {
            known = new long[FIRST_SIZE];
            return;
        }
        known = new long[2 * old.length];
        for (long each : old) {
            if (each != 0) {
                known[slotOf(each)] = each;
                remembered++;
            }
        }
    }

    private boolean order(int time, int place, boolean ours, int done, int nextFixed) {
        if (++tried > MOST_TRIED) {
            return true;
        }
        boolean fixedLeft = nextFixed < shift.fixedStops().length;
        if (done == count && !fixedLeft) {
            return !ours || time + terms.shortest[place][shift.home()] <= shift.to();
        }
        for (int i = 0; i < count; i++) {
            if (!used[i] && visit(i, time, place, done, nextFixed)) {
                return true;
            }
        }
        return fixedLeft && passFixed(time, place, ours, done, nextFixed);
    }

    private boolean visit(int i, int time, int place, int done, int nextFixed) {
        int room = Route.roomOf(stops[i]);
        int arrival = time + terms.shortest[place][terms.facility[room]];
        int start = Route.start(terms, shift, stops[i], arrival);
        if (start == Terms.NEVER) {
            return false;
        }
        used[i] = true;
        boolean found = order(start + terms.work[room], terms.facility[room], true, done + 1, nextFixed);
        used[i] = false;
        return found;
    }

    private boolean passFixed(int time, int place, boolean ours, int done, int nextFixed) {
        int visit = shift.fixedStops()[nextFixed];
        int there = terms.fixedFacility[visit];
        if (ours && time + terms.shortest[place][there] > terms.fixedStart[visit]) {
            return false;
        }
        boolean later = terms.fixedEnd[visit] >= time;
        return order(later ? terms.fixedEnd[visit] : time, later ? there : place, false, done, nextFixed + 1);
    }
}
