package panelbook.colorimetry.control;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.hipparchus.distribution.continuous.TDistribution;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * Tells steps from slow ageing, with nothing known beforehand but that ageing is nearly straight over the panel hours.
 *
 * <p>Each figure is compared with the line through those before it. Scaled by their scatter, these recursive residuals are
 * independent and, by way of Student's distribution, standard normal as long as nothing steps; they go to an
 * {@link EwmaChart}. Sources: Brown, Durbin and Evans, J. Roy. Statist. Soc. B 37 (1975) 149, for recursive residuals;
 * Hawkins, The Statistician 36 (1987) 299, for charts that start themselves.
 *
 * <p>A residual counts for 5 at most, for 3.5 once one that teaches follows it, and one beyond 3.5 does not teach the line;
 * the first six runs are held against each other in that way. A signal counts once two runs or more lie after the place of the step, three quarters of which show more
 * than half of it: so a wild reading raises no alarm, and a large step is told from it by the second or third run after.
 * What teaches the line after a step hides it, so a small step may never be told (our simulation, {@code RunLengths} among
 * the tests, prints how often).
 *
 * <p>After a step the line goes on shifted by it, and the chart starts anew: so a step back is found as well. Each meter has
 * an offset of its own, which its first run sets: a change of meter is no step of the display. Where the signal comes from a
 * line that bends rather than steps (the square of the hours explains more), the bend is taken in instead.
 */
public final class StepWatch {
    /** Share of the newest residual: good for steps of one to two standard deviations. House rule. */
    public static final double LAMBDA = 0.2;

    /** Limits of one false alarm in some 2,000 runs ({@link RunLength}), a display checked weekly for 38 years. House rule. */
    public static final double WIDTH = 3.39;

    /** A line and its scatter take so many before the first residual. */
    public static final int LEARNING = 6;

    /** With fewer runs there is no step to be told. */
    public static final int LEAST_RUNS = LEARNING + 2;

    private static final double WILD = 3.5;
    private static final double MOST = 5;
    private static final int LEAST_AFTER = 2;
    private static final double SHOWN_SHARE = 0.75;
    private static final EwmaChart CHART = new EwmaChart(0, 1, LAMBDA, WIDTH);

    private final Track track;
    private final boolean[] taught;
    private final double[][] residuals;
    private final List<Integer> meters = new ArrayList<>();
    private final List<double[]> columns;
    private final List<Watched.Signal> signals = new ArrayList<>();
    private boolean bent;
    private boolean screened;

    private StepWatch(Track track) {
        this.track = track;
        this.taught = new boolean[track.size()];
        this.residuals = new double[track.kinds()][track.size()];
        this.columns = Regression.line(track);
    }

    /**
     * A step of one figure.
     *
     * @param lastBefore index of the last figure before it
     * @param firstAfter index of the first figure after it: it happened between these two
     * @param signalled index of the figure that raised the signal
     * @param size what the figures moved by, in their unit, ageing apart
     */
    public record Step(int lastBefore, int firstAfter, int signalled, double size) {}

    /**
     * Watches a series of one figure by one meter of unknown repeatability.
     *
     * @param panelHours h, in order of time; of one segment: a new baseline is a step that somebody wanted
     * @param figures as many, any unit; luminance as its logarithm
     * @return the first step; empty when there is none to be told, or fewer than eight figures. Its place is the one that
     *     leaves the least squares of a line with one step, up to the signal
     * @throws IllegalArgumentException when the two differ in number
     */
    public static Optional<Step> firstStep(double[] panelHours, double[] figures) {
        return watch(oneMeter(panelHours, figures)).steps().stream()
                .findFirst()
                .map(step -> new Step(
                        step.lastBefore(),
                        step.firstAfter(),
                        step.signalled(),
                        step.size().parts().get(0).value()));
    }

    private static Track oneMeter(double[] panelHours, double[] figures) {
        return Track.of(
                panelHours, new double[][] {figures}, Collections.nCopies(panelHours.length, ""), new double[1]);
    }

    /**
     * Watches a track.
     *
     * @param track of one segment: a new baseline is a step that somebody wanted
     * @return what was found; nothing with fewer than {@link #LEAST_RUNS} runs. The place of a step is the one that leaves
     *     the least squares up to the signal, so that later runs do not move it
     */
    public static Watched watch(Track track) {
        StepWatch watch = new StepWatch(track);
        watch.run();
        return new Watched(track, watch.columns, watch.meters, watch.signals, watch.taught);
    }

    /** Standard normal in control; 0 for those that only teach. */
    static double[] residuals(double[] hours, double[] figures) {
        StepWatch watch = new StepWatch(oneMeter(hours, figures));
        watch.run();
        return watch.residuals[0];
    }

    private void run() {
        Averages averages = new Averages(track.kinds());
        Regression learnt = new Regression(track, columns);
        for (int i = 0; i < track.size(); i++) {
            if (isNewMeter(i)) {
                taught[i] = true;
                learnt = learnAnew(i);
                continue;
            }
            taught[i] = look(learnt, i);
            if (taught[i]) {
                learnt.add(i);
            }
            if (!screened && hasLearnt(learnt)) {
                screened = screen(learnt);
                learnt = learnAnew(i);
            }
            if (averages.signal(residuals, taught[i], i) && place(i)) {
                learnt = learnAnew(i);
                averages = new Averages(track.kinds());
            }
        }
    }

    /** The first run of a meter sets its offset; the first meter of all needs none. */
    private boolean isNewMeter(int i) {
        if (meters.contains(track.meter(i))) {
            return false;
        }
        meters.add(track.meter(i));
        if (meters.size() > 1) {
            double[] column = new double[track.size()];
            for (int k = 0; k < column.length; k++) {
                column[k] = track.meter(k) == track.meter(i) ? 1 : 0;
            }
            columns.add(column);
        }
        return true;
    }

    private Regression learnAnew(int lastInclusive) {
        Regression anew = new Regression(track, columns);
        for (int i = 0; i <= lastInclusive; i++) {
            if (taught[i]) {
                anew.add(i);
            }
        }
        return anew;
    }

    /** Notes the residuals of a run; true when it may teach. */
    private boolean look(Regression learnt, int i) {
        if (!screened || !hasLearnt(learnt)) {
            return true;
        }
        boolean teaches = true;
        for (int f = 0; f < residuals.length; f++) {
            double residual = residual(learnt, f, i);
            residuals[f][i] = Math.max(-MOST, Math.min(MOST, residual));
            teaches &= Math.abs(residual) < WILD;
        }
        return teaches;
    }

    private static boolean hasLearnt(Regression learnt) {
        return learnt.freedom() >= LEARNING - 2 && learnt.solves();
    }

    /** Lets a wild one among the first runs teach no longer; false when there was one. */
    private boolean screen(Regression learnt) {
        int wildest = -1;
        double most = WILD;
        for (int i : learnt.runs()) {
            for (int f = 0; f < residuals.length; f++) {
                double without = Math.abs(withoutItself(learnt, f, i));
                if (without > most) {
                    most = without;
                    wildest = i;
                }
            }
        }
        if (wildest >= 0) {
            taught[wildest] = false;
        }
        return wildest < 0;
    }

    /** What a run shows above what the others foretell, where it is one of those taken in. */
    private static double withoutItself(Regression learnt, int kind, int i) {
        double left = 1 - learnt.variance(learnt.row(i));
        if (left < 1e-6) {
            return 0;
        }
        int freedom = learnt.freedom() - 1;
        double off = learnt.off(kind, i);
        double rest = Math.max(learnt.rest(kind) - off * off / left, 0);
        double one = Math.max(Math.sqrt(rest / freedom), learnt.leastScatter(kind));
        return standardNormal(off / (one * Math.sqrt(left)), freedom);
    }

    private static double residual(Regression learnt, int kind, int i) {
        int freedom = learnt.freedom();
        double one = Math.max(Math.sqrt(learnt.rest(kind) / freedom), learnt.leastScatter(kind));
        double t = learnt.off(kind, i) / (one * Math.sqrt(1 + learnt.variance(learnt.row(i))));
        return standardNormal(t, freedom);
    }

    /** The standard normal figure as unlikely as one of Student's distribution. */
    private static double standardNormal(double t, int freedom) {
        double tail = new TDistribution(freedom).cumulativeProbability(-Math.abs(t));
        return tail < 1e-12 ? Math.copySign(7, t) : Math.copySign(Normal.quantile(tail), t);
    }

    /** The averages of the chart, one of each kind, and what they would be if wild figures counted for less. */
    private static final class Averages {
        private double[] now;
        private final double[] calm;

        Averages(int kinds) {
            this.now = new double[kinds];
            this.calm = new double[kinds];
        }

        boolean signal(double[][] residuals, boolean teaches, int i) {
            boolean signal = false;
            for (int f = 0; f < calm.length; f++) {
                double residual = residuals[f][i];
                now[f] = LAMBDA * residual + (1 - LAMBDA) * now[f];
                calm[f] = LAMBDA * Math.max(-WILD, Math.min(WILD, residual)) + (1 - LAMBDA) * calm[f];
            }
            if (teaches) {
                now = calm.clone();
            }
            for (double average : now) {
                signal |= average > CHART.upper() || average < CHART.lower();
            }
            return signal;
        }
    }

    /** Takes in what raised the signal: the bend of the line, or the step whose place explains most; false when neither. */
    private boolean place(int signalled) {
        Regression all = new Regression(track, columns);
        for (int i = 0; i <= signalled; i++) {
            if (taught[i] || !isTaughtBetween(i + 1, signalled)) {
                all.add(i);
            }
        }
        double[] variances = variances(all);
        int from = signals.isEmpty() ? 2 : signals.get(signals.size() - 1).firstAfter() + 1;
        double[] explained = new double[signalled + 1];
        int best = signalled;
        for (int first = from; first <= signalled; first++) {
            explained[first] = all.trial(Regression.step(track, first)).explains(variances);
            best = explained[first] > explained[best] ? first : best;
        }
        double[] square = square();
        if (!bent && all.trial(square).explains(variances) > explained[best]) {
            bent = true;
            columns.add(square);
        } else if (isShown(all, best, signalled, variances)) {
            takeIn(best, explained, signalled);
        } else {
            return false;
        }
        for (int i = best; i <= signalled; i++) {
            taught[i] = true;
        }
        return true;
    }

    /** A figure that did not teach, and after which others did, was wild: after a large step none teach. */
    private boolean isTaughtBetween(int fromInclusive, int toInclusive) {
        for (int i = fromInclusive; i <= toInclusive; i++) {
            if (taught[i]) {
                return true;
            }
        }
        return false;
    }

    /** Whether most of the runs after a place show the step by themselves: a few wild ones do not make one. */
    private boolean isShown(Regression without, int first, int signalled, double[] variances) {
        List<double[]> with = new ArrayList<>(columns);
        with.add(Regression.step(track, first));
        Regression stepped = new Regression(track, with);
        without.runs().forEach(stepped::add);
        if (signalled - first + 1 < LEAST_AFTER || !stepped.solves()) {
            return false;
        }
        int shown = 0;
        for (int i = first; i <= signalled; i++) {
            double along = 0;
            for (int f = 0; f < variances.length; f++) {
                double size = stepped.coefficient(f, with.size() - 1);
                along += size * (size / 2 + stepped.off(f, i)) / variances[f];
            }
            shown += along > 0 ? 1 : 0;
        }
        return shown >= SHOWN_SHARE * (signalled - first + 1);
    }

    /** Between runs of other meters the place is not told where all are as good: it lies between the first and the last. */
    private void takeIn(int best, double[] explained, int signalled) {
        int first = best;
        int last = best;
        while (first > 1 && isAsGood(explained[first - 1], explained[best])) {
            first--;
        }
        while (last < signalled && isAsGood(explained[last + 1], explained[best])) {
            last++;
        }
        signals.add(new Watched.Signal(first - 1, last, signalled, columns.size()));
        columns.add(Regression.step(track, last));
    }

    private static boolean isAsGood(double explained, double best) {
        return explained > 0 && best - explained <= 1e-9 * best;
    }

    private double[] square() {
        double[] hours = columns.get(1);
        double[] square = new double[hours.length];
        for (int i = 0; i < square.length; i++) {
            square[i] = hours[i] * hours[i];
        }
        return square;
    }

    private static double[] variances(Regression all) {
        double[] variances = new double[all.kinds()];
        for (int f = 0; f < variances.length; f++) {
            variances[f] = Math.max(all.rest(f) / Math.max(all.freedom(), 1), Math.pow(all.leastScatter(f), 2));
        }
        return variances;
    }
}
