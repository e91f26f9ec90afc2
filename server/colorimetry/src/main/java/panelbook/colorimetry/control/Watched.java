package panelbook.colorimetry.control;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.uncertainty.Estimate;

/**
 * What {@link StepWatch} found on a track: its steps, the places where the meter changed, and what it would have moved by at
 * any other place.
 */
public final class Watched {
    /** Runs that a place needs before it, so that ageing and scatter are known. House rule. */
    private static final int LEAST_BEFORE = 4;

    /** Runs by the new meter that a change of meter needs: one may be wild. House rule. */
    private static final int LEAST_OF_A_METER = 2;

    /** What all steps together must come to, in shares of a step, so that it stands. House rule. */
    private static final double LEFT_SHARE = 0.5;

    private final Track track;
    private final List<double[]> columns;
    private final List<Integer> meters;
    private final List<Signal> signals;
    private final Regression whole;
    private final boolean[] taught;

    /** A step as it was found; its column is the step's among those of the regression. */
    record Signal(int lastBefore, int firstAfter, int signalled, int column) {}

    /**
     * A step.
     *
     * @param lastBefore index of the last run before it
     * @param firstAfter index of the first run after it: it happened between these two
     * @param signalled index of the run that raised the signal
     * @param size what the figures moved by, ageing and offsets of meters apart
     * @param stands whether what all steps together led to lies in its direction, by more than half of it: so neither a step
     *     that was taken back nor the one that took it back does
     */
    public record Step(int lastBefore, int firstAfter, int signalled, Move size, boolean stands) {}

    /**
     * A place, whether or not a step was found there.
     *
     * @param lastBefore index of the last run before it
     * @param firstAfter index of the first run after it
     * @param size what the figures moved by there
     */
    public record Place(int lastBefore, int firstAfter, Move size) {}

    Watched(Track track, List<double[]> columns, List<Integer> meters, List<Signal> signals, boolean[] taught) {
        this.track = track;
        this.columns = List.copyOf(columns);
        this.meters = List.copyOf(meters);
        this.signals = List.copyOf(signals);
        this.taught = taught.clone();
        this.whole = regression(columns, track.size());
    }

    /** Over the runs that taught, and all from an index on. */
    private Regression regression(List<double[]> of, int allFrom) {
        Regression regression = new Regression(track, of);
        for (int i = 0; i < track.size(); i++) {
            if (taught[i] || i >= allFrom) {
                regression.add(i);
            }
        }
        return regression;
    }

    /**
     * The steps.
     *
     * @return in order of time; their sizes from all runs so far
     */
    public List<Step> steps() {
        List<Step> steps = new ArrayList<>();
        if (signals.isEmpty() || !whole.solves()) {
            return steps;
        }
        Move level = move(whole, weights(0, signals.size()));
        for (int s = 0; s < signals.size(); s++) {
            Signal signal = signals.get(s);
            Move size = move(whole, weights(s, s + 1));
            steps.add(
                    new Step(signal.lastBefore(), signal.firstAfter(), signal.signalled(), size, stands(size, level)));
        }
        return steps;
    }

    private double[] weights(int fromStep, int toStep) {
        double[] weights = new double[columns.size()];
        for (int s = fromStep; s < toStep; s++) {
            weights[signals.get(s).column()] = 1;
        }
        return weights;
    }

    private static boolean stands(Move size, Move level) {
        double along = 0;
        double whole = 0;
        for (int f = 0; f < size.parts().size(); f++) {
            along += size.parts().get(f).value() * level.parts().get(f).value();
            whole += Math.pow(size.parts().get(f).value(), 2);
        }
        return along > LEFT_SHARE * whole;
    }

    /**
     * Where another meter took over: what it reads otherwise than the one before. A step of the display at that very place
     * would look the same.
     *
     * @return in order of time, one for each meter after the first, where {@link StepWatch#LEARNING} runs lie before and
     *     each of the two meters has two runs or more
     */
    public List<Place> changesOfMeter() {
        List<Place> changes = new ArrayList<>();
        for (int m = 1; m < meters.size() && whole.solves(); m++) {
            int first = firstOf(meters.get(m));
            int before = meters.indexOf(track.meter(first - 1));
            if (first >= StepWatch.LEARNING
                    && count(meters.get(m)) >= LEAST_OF_A_METER
                    && count(meters.get(before)) >= LEAST_OF_A_METER) {
                double[] weights = new double[columns.size()];
                weights[columnOf(m)] = 1;
                if (before > 0) {
                    weights[columnOf(before)] = -1;
                }
                changes.add(new Place(first - 1, first, move(whole, weights)));
            }
        }
        return changes;
    }

    private int firstOf(int meter) {
        int i = 0;
        while (track.meter(i) != meter) {
            i++;
        }
        return i;
    }

    private int count(int meter) {
        int count = 0;
        for (int i = 0; i < track.size(); i++) {
            count += track.meter(i) == meter && taught[i] ? 1 : 0;
        }
        return count;
    }

    /** The column that is 1 exactly where a meter was used. */
    private int columnOf(int place) {
        int first = firstOf(meters.get(place));
        for (int c = 2; c < columns.size(); c++) {
            double[] column = columns.get(c);
            boolean same = column[first] == 1;
            for (int i = 0; same && i < column.length; i++) {
                same = column[i] == (track.meter(i) == meters.get(place) ? 1 : 0);
            }
            if (same) {
                return c;
            }
        }
        throw new IllegalStateException("no column of a meter");
    }

    /**
     * What the figures moved by between two runs, so that they can be compared with a step of another display, also where
     * their own chart has not signalled yet: the size of a step there by least squares. Source: generalised least squares of
     * a line with one step, as any text on regression has it; the scatter is the greater of what the runs show (enlarged
     * for their small number by JCGM 101:2008, 6.4.9.4) and the least that a figure can have.
     *
     * @param firstFrom the earliest index that may be the first run after the place
     * @param firstTo the latest
     * @return the place between them that explains most; empty when there are too few runs: four before it and one after
     */
    public Optional<Place> at(int firstFrom, int firstTo) {
        for (Step step : steps()) {
            if (step.lastBefore() < firstTo && step.firstAfter() >= firstFrom) {
                return Optional.of(new Place(step.lastBefore(), step.firstAfter(), step.size()));
            }
        }
        Place best = null;
        double most = -1;
        for (int first = Math.max(firstFrom, LEAST_BEFORE); first <= Math.min(firstTo, track.size() - 1); first++) {
            List<double[]> with = new ArrayList<>(columns);
            with.add(Regression.step(track, first));
            Regression regression = regression(with, first);
            if (regression.solves() && regression.freedom() >= 1) {
                double[] weights = new double[with.size()];
                weights[with.size() - 1] = 1;
                Move size = move(regression, weights);
                double share = share(size);
                if (share > most) {
                    most = share;
                    best = new Place(first - 1, first, size);
                }
            }
        }
        return Optional.ofNullable(best);
    }

    private static double share(Move size) {
        return size.parts().stream()
                .mapToDouble(part -> Math.pow(part.value() / part.standardUncertainty(), 2))
                .sum();
    }

    private Move move(Regression regression, double[] weights) {
        List<Estimate> parts = new ArrayList<>();
        for (int f = 0; f < track.kinds(); f++) {
            double u = scatter(regression, f) * Math.sqrt(Math.max(regression.variance(weights), 0));
            parts.add(new Estimate(regression.sum(f, weights), u));
        }
        return new Move(parts);
    }

    /** Where so few runs are over that their scatter says nothing, the least that a figure can have. */
    private static double scatter(Regression regression, int kind) {
        int freedom = regression.freedom();
        double shown = freedom > 2 ? Math.sqrt(regression.rest(kind) / (freedom - 2)) : 0;
        return Math.max(shown, regression.leastScatter(kind));
    }
}
