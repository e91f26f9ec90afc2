package panelbook.app.planning.plan;

import java.util.Arrays;

/**
 * First prices of rooms for the bound, from a coarser picture: a shift is so many minutes, and each room goes where it saves
 * the most after paying for its minutes. Prices of minutes are raised in shifts that too many rooms go to, and lowered in
 * others.
 */
final class RoughPrices {
    private static final int STEPS = 1_500;
    private static final double FIRST_STEP = 0.3;

    private final Terms terms;
    private final double[] perMinute;
    private final int[] asked;

    private RoughPrices(Terms terms) {
        this.terms = terms;
        perMinute = new double[terms.shifts.length];
        asked = new int[terms.shifts.length];
    }

    /** What a visit should save at least, by room. */
    static double[] of(Terms terms) {
        return new RoughPrices(terms).adjusted();
    }

    private double[] adjusted() {
        double[] saved = new double[terms.roomCount];
        double[] best = saved;
        double least = Double.POSITIVE_INFINITY;
        double minuteWorth = worthOfMinute();
        for (int i = 0; i < STEPS; i++) {
            saved = goWhereMostIsSaved();
            double sum = Arrays.stream(saved).sum() + worthOfShifts();
            if (sum < least) {
                least = sum;
                best = saved;
            }
            adjust(FIRST_STEP * minuteWorth / (1 + 0.02 * i));
        }
        return best;
    }

    private double worthOfMinute() {
        double sum = 0;
        int count = 0;
        for (int room = 0; room < terms.roomCount; room++) {
            if (terms.candidates[room].length > 0) {
                sum += terms.mostSaved(room) / terms.work[room];
                count++;
            }
        }
        return sum / Math.max(1, count);
    }

    private double worthOfShifts() {
        double sum = 0;
        for (Shift shift : terms.shifts) {
            sum += perMinute[shift.index()] * (shift.to() - shift.from());
        }
        return sum;
    }

    private double[] goWhereMostIsSaved() {
        double[] saved = new double[terms.roomCount];
        Arrays.fill(asked, 0);
        for (int room = 0; room < terms.roomCount; room++) {
            int chosen = -1;
            for (int shift : terms.candidates[room]) {
                double without = terms.costWithout(room) - terms.leastCost(room, shift);
                if (without <= saved[room]) {
                    break;
                }
                double worth = without - perMinute[shift] * terms.work[room];
                if (worth > saved[room]) {
                    saved[room] = worth;
                    chosen = shift;
                }
            }
            if (chosen >= 0) {
                asked[chosen] += terms.work[room];
            }
        }
        return saved;
    }

    private void adjust(double step) {
        for (Shift shift : terms.shifts) {
            int minutes = shift.to() - shift.from();
            double tooMuch = (double) (asked[shift.index()] - minutes) / minutes;
            perMinute[shift.index()] = Math.max(0, perMinute[shift.index()] + step * Math.min(tooMuch, 2));
        }
    }
}
