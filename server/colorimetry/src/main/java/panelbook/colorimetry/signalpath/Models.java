package panelbook.colorimetry.signalpath;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import panelbook.colorimetry.St2084;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.signalpath.DisplayModel.Converter;

/** The shapes that each explanation allows on a target. All bounds are house rules, told in {@link SignalPath}. */
final class Models {
    private static final double[] KNEES = {1, 0.7, 0.4};
    private static final double[] HARD = {1};
    private static final Converter INTACT = new Converter(1, 0, 1);

    private static final Box ANY_FACTOR_OF_PEAK = new Box(0.02, 10);
    private static final Box OWN_PQ_FACTOR = new Box(0.6, 1.25);
    private static final double PQ_LIMITED_BELOW = 0.85;
    private static final double RELATIVE_LIMITED_BELOW = 0.9;

    private final Target target;
    private final List<Converter> squeezed;
    private final List<Converter> expanded;

    Models(Target target) {
        this.target = target;
        int bits = target.codes().bitDepth();
        CodeValues narrow = new CodeValues(SignalRange.NARROW, bits);
        double full = new CodeValues(SignalRange.FULL, bits).white();
        double black = narrow.black();
        double span = narrow.white() - black;
        squeezed = List.of(new Converter(span / full, black / full, 1));
        List<Converter> out = new ArrayList<>();
        out.add(new Converter(full / span, -black / span, 1));
        if (target.codes().range() == SignalRange.NARROW) {
            // codes above white are video in narrow range, and some displays show them
            out.add(new Converter(full / span, -black / span, narrow.toSignal(narrow.greatest())));
        }
        expanded = List.copyOf(out);
    }

    List<DisplayModel> of(Explanation explanation) {
        DoubleFunction<Eotf> own = white -> target.eotf();
        return switch (explanation.kind()) {
            case AS_INTENDED -> display(List.of(INTACT), own, PQ_LIMITED_BELOW);
            case FULL_SQUEEZED_TO_NARROW -> display(squeezed, own, PQ_LIMITED_BELOW);
            case NARROW_EXPANDED_AS_FULL -> display(expanded, own, PQ_LIMITED_BELOW);
            case WRONG_EOTF -> display(List.of(INTACT), explanation.eotf().orElseThrow()::at, 0.02);
            case PEAK_LIMITED -> limited(own);
        };
    }

    private List<DisplayModel> display(List<Converter> converters, DoubleFunction<Eotf> eotf, double leastPqTop) {
        double aim = target.aims().white();
        List<DisplayModel> models = new ArrayList<>();
        for (Converter c : converters) {
            if (eotf.apply(aim) instanceof Eotf.Pq) {
                Box top = new Box(Math.min(leastPqTop * aim, St2084.PEAK / 2), St2084.PEAK * 1.25);
                models.addAll(shapes(c, eotf, KNEES, OWN_PQ_FACTOR, top));
            } else {
                // what a display shows of signals above white ends somewhere above white
                Box top = new Box(RELATIVE_LIMITED_BELOW, c.ceiling() > 1 ? 2 : 1);
                models.addAll(shapes(c, eotf, HARD, times(ANY_FACTOR_OF_PEAK, aim), top));
            }
        }
        return List.copyOf(models);
    }

    private List<DisplayModel> limited(DoubleFunction<Eotf> own) {
        double aim = target.aims().white();
        return target.eotf() instanceof Eotf.Pq
                ? shapes(INTACT, own, KNEES, OWN_PQ_FACTOR, times(new Box(0.005, PQ_LIMITED_BELOW), aim))
                : shapes(INTACT, own, KNEES, times(new Box(0.3, 3), aim), new Box(0.02, RELATIVE_LIMITED_BELOW));
    }

    private List<DisplayModel> shapes(Converter c, DoubleFunction<Eotf> eotf, double[] knees, Box scale, Box top) {
        List<DisplayModel> models = new ArrayList<>();
        for (double knee : knees) {
            for (boolean adds : blackShapes(eotf.apply(1))) {
                models.add(new DisplayModel(c, eotf, knee, adds, scale, blackBox(eotf.apply(1), adds), top));
            }
        }
        return models;
    }

    /** Power laws add black in any case; BT.1886 with an added black would be one of them. */
    private static boolean[] blackShapes(Eotf eotf) {
        return eotf instanceof Eotf.Pq || eotf instanceof Eotf.Hlg
                ? new boolean[] {false, true}
                : new boolean[] {false};
    }

    /**
     * A lift bends the whole lower half as a squeezed range does, so it is held to what the panel may have; a floor that
     * is added, or that clips, may be high.
     */
    private Box blackBox(Eotf eotf, boolean adds) {
        double peak = target.aims().white();
        boolean lifts = eotf instanceof Eotf.Bt1886 || (eotf instanceof Eotf.Hlg && !adds);
        double most = Math.max(3 * target.aims().black(), lifts ? 0.0005 * peak : Math.max(0.005 * peak, 0.5));
        return new Box(1e-7 * peak, Math.min(most, peak / 4));
    }

    private static Box times(Box box, double factor) {
        return new Box(box.least() * factor, box.most() * factor);
    }
}
