package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import panelbook.colorimetry.trim.TrimSuggestion.Reason;
import panelbook.colorimetry.trim.TrimSuggestion.Rest;
import panelbook.colorimetry.trim.TrimSuggestion.WhyNot;
import panelbook.colorimetry.uncertainty.Estimate;

/**
 * Finds the clicks of a {@link TrimSuggestion}.
 *
 * <p>The expected squared distance, E|wanted - sum of clicks times effects|2 over greys and figures in units of their
 * tolerances, is made least over whole clicks within bounds: exactly, where no more controls are to be set than the figures
 * tell apart, else as nearly as a bounded search finds. What is not known of an effect counts as distance,
 * so that of two ways the surer goes first, and an unsure control is turned less than all the way.
 */
public final class TrimSuggester {
    /** Savings below this, in squares of tolerances, are no reason worth telling. House rule. */
    private static final double LEAST_SAVING = 0.05;

    /** A rest of more than one tolerance in all, with no bounds and half clicks, is out of reach. House rule. */
    private static final double MOST_IN_REACH = 1;

    /** More clicks than any control has. */
    private static final int NO_BOUND = 100_000;

    private final ClickEffects effects;
    private final List<ControlRange> ranges;
    private final List<Wanted> wanted;
    private final Tolerances tolerances;
    private final Optional<Floor> floor;
    /** Squares of effects alone, and with what is not known of them. */
    private final RealMatrix known;

    private final RealMatrix h;
    private final double[] g;
    private final double costBefore;

    private TrimSuggester(
            ClickEffects effects,
            List<ControlRange> ranges,
            List<Wanted> wanted,
            Tolerances tolerances,
            Optional<Floor> floor) {
        this.effects = effects;
        this.ranges = ranges;
        this.wanted = wanted;
        this.tolerances = tolerances;
        this.floor = floor;
        int size = Math.max(ranges.size(), 1);
        this.known = new Array2DRowRealMatrix(size, size);
        this.h = new Array2DRowRealMatrix(size, size);
        this.g = new double[ranges.size()];
        double before = 0;
        for (Wanted w : wanted) {
            for (Figure f : Figure.values()) {
                double aim = w.of(f) / tolerances.of(f);
                before += aim * aim;
                add(w, f, aim);
            }
        }
        this.costBefore = before;
    }

    /**
     * Suggests clicks.
     *
     * @param effects of a click on this display
     * @param controls that may be turned, each once
     * @param wanted how greys should move, at least one, each level once
     * @param tolerances what counts as equally far off
     * @param floor what black may rise to; empty for no such limit
     * @return the best whole clicks; all 0 when nothing is better
     * @throws IllegalArgumentException when a control or a level comes twice, or nothing is wanted
     */
    public static TrimSuggestion suggest(
            ClickEffects effects,
            List<ControlRange> controls,
            List<Wanted> wanted,
            Tolerances tolerances,
            Optional<Floor> floor) {
        if (wanted.isEmpty()) {
            throw new IllegalArgumentException("no grey is to be moved; give at least white");
        }
        requireDistinct("control", controls.stream().map(ControlRange::control).toList());
        requireDistinct("grey level", wanted.stream().map(Wanted::level).toList());
        List<ControlRange> known =
                controls.stream().filter(c -> isKnown(effects, c, wanted)).toList();
        List<Control> unknown = controls.stream()
                .filter(c -> !known.contains(c))
                .map(ControlRange::control)
                .toList();
        return new TrimSuggester(effects, known, wanted, tolerances, floor).suggest(unknown);
    }

    private static void requireDistinct(String what, List<?> all) {
        for (int i = 0; i < all.size(); i++) {
            if (all.indexOf(all.get(i)) < i) {
                throw new IllegalArgumentException(what + " " + all.get(i) + " comes twice; keep one");
            }
        }
    }

    private static boolean isKnown(ClickEffects effects, ControlRange c, List<Wanted> wanted) {
        return wanted.stream()
                .allMatch(w ->
                        effects.of(c.control(), w.level(), Figure.LN_LUMINANCE).isPresent());
    }

    private Estimate effect(int control, GreyLevel level, Figure figure) {
        return effects.of(ranges.get(control).control(), level, figure)
                .map(Effect::perClick)
                .orElse(new Estimate(0, 0));
    }

    private void add(Wanted w, Figure f, double aim) {
        for (int i = 0; i < g.length; i++) {
            Estimate a = effect(i, w.level(), f).times(1 / tolerances.of(f));
            g[i] += a.value() * aim;
            for (int j = 0; j < g.length; j++) {
                Estimate b = effect(j, w.level(), f).times(1 / tolerances.of(f));
                known.addToEntry(i, j, a.value() * b.value());
                h.addToEntry(i, j, a.value() * b.value());
            }
            // a trace keeps the matrices regular where clicks do nothing that can be seen, or all the same
            known.addToEntry(i, i, 1e-9);
            h.addToEntry(i, i, a.standardUncertainty() * a.standardUncertainty() + 1e-9);
        }
    }

    private TrimSuggestion suggest(List<Control> unknown) {
        int[] clicks = search(bounds(Relaxed.NOTHING, -1), this::keepsFloor);
        Map<Control, Integer> byControl = new LinkedHashMap<>();
        for (int i = 0; i < ranges.size(); i++) {
            byControl.put(ranges.get(i).control(), clicks[i]);
        }
        return new TrimSuggestion(
                byControl,
                wanted.stream().map(w -> rest(w, clicks)).toList(),
                costBefore,
                cost(clicks),
                whyNotMore(clicks),
                unknown);
    }

    private Rest rest(Wanted w, int[] clicks) {
        return new Rest(
                w.level(), left(w, Figure.U, clicks), left(w, Figure.V, clicks), left(w, Figure.LN_LUMINANCE, clicks));
    }

    private Estimate left(Wanted w, Figure f, int[] clicks) {
        double left = w.of(f);
        double variance = 0;
        for (int i = 0; i < clicks.length; i++) {
            Estimate a = effect(i, w.level(), f).times(clicks[i]);
            left -= a.value();
            variance += a.standardUncertainty() * a.standardUncertainty();
        }
        return new Estimate(left, Math.sqrt(variance));
    }

    private enum Relaxed {
        NOTHING,
        ONE,
        ALL
    }

    /** Lowest and highest changes, of one or all controls without their bounds. */
    private int[][] bounds(Relaxed relaxed, int which) {
        int[][] bounds = new int[2][ranges.size()];
        for (int i = 0; i < ranges.size(); i++) {
            boolean free = relaxed == Relaxed.ALL || (relaxed == Relaxed.ONE && i == which);
            bounds[0][i] = free ? -NO_BOUND : ranges.get(i).leastChange();
            bounds[1][i] = free ? NO_BOUND : ranges.get(i).mostChange();
        }
        return bounds;
    }

    private int[] search(int[][] bounds, Predicate<int[]> allowed) {
        return ranges.isEmpty() ? new int[0] : ClickSearch.least(h, g, bounds[0], bounds[1], allowed);
    }

    private int[] searchAsIfSure() {
        int[][] bounds = bounds(Relaxed.NOTHING, -1);
        return ranges.isEmpty() ? new int[0] : ClickSearch.least(known, g, bounds[0], bounds[1], this::keepsFloor);
    }

    private boolean keepsFloor(int[] clicks) {
        return floor.isEmpty() || rise(clicks) <= floor.get().room() + 1e-12;
    }

    private double rise(int[] clicks) {
        double rise = 0;
        for (int i = 0; i < clicks.length; i++) {
            rise += clicks[i] * effect(i, GreyLevel.BLACK, Figure.LN_LUMINANCE).value();
        }
        return rise;
    }

    private double cost(int[] clicks) {
        return cost(h, real(clicks));
    }

    private static double[] real(int[] clicks) {
        double[] n = new double[clicks.length];
        for (int i = 0; i < n.length; i++) {
            n[i] = clicks[i];
        }
        return n;
    }

    private double cost(RealMatrix squares, double[] n) {
        double cost = costBefore;
        for (int i = 0; i < n.length; i++) {
            cost -= 2 * g[i] * n[i];
            for (int j = 0; j < n.length; j++) {
                cost += n[i] * squares.getEntry(i, j) * n[j];
            }
        }
        return Math.max(cost, 0);
    }

    private double leastOfRealNumbers(RealMatrix squares) {
        return ranges.isEmpty()
                ? costBefore
                : cost(
                        squares,
                        new CholeskyDecomposition(squares)
                                .getSolver()
                                .solve(new ArrayRealVector(g))
                                .toArray());
    }

    private List<WhyNot> whyNotMore(int[] clicks) {
        double cost = cost(clicks);
        List<WhyNot> reasons = new ArrayList<>();
        for (int i = 0; i < ranges.size(); i++) {
            int[] free = search(bounds(Relaxed.ONE, i), this::keepsFloor);
            ControlRange range = ranges.get(i);
            boolean clips = range.isHeldByGain() && free[i] > range.mostChange();
            Reason reason = clips ? Reason.GAIN_WOULD_CLIP : Reason.BOUND;
            tell(reasons, reason, Optional.of(range.control()), cost - cost(free));
        }
        int[] floorless = search(bounds(Relaxed.NOTHING, -1), n -> true);
        tell(reasons, Reason.FLOOR_WOULD_RISE, Optional.empty(), cost - cost(floorless));
        int[] whole = search(bounds(Relaxed.ALL, -1), n -> true);
        tell(reasons, Reason.WHOLE_CLICKS, Optional.empty(), cost(whole) - leastOfRealNumbers(h));
        // what is not known also holds clicks back, so it is held against the best clicks if the estimates were sure
        tell(reasons, Reason.EFFECT_UNSURE, Optional.empty(), cost - cost(known, real(searchAsIfSure())));
        double outOfReach = leastOfRealNumbers(known);
        if (outOfReach > MOST_IN_REACH) {
            reasons.add(new WhyNot(Reason.OUT_OF_REACH, Optional.empty(), outOfReach));
        }
        return reasons;
    }

    private static void tell(List<WhyNot> reasons, Reason reason, Optional<Control> control, double wouldSave) {
        if (wouldSave > LEAST_SAVING) {
            reasons.add(new WhyNot(reason, control, wouldSave));
        }
    }
}
