package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.Require;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.uncertainty.Conformance;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.Limits;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Normal;
import panelbook.colorimetry.uncertainty.Propagation;

/** Whether a trim may stand, from readings before and after it. */
public final class TrimGuards {
    /** A channel that keeps less than this share of its rise over the top of its ramp no longer rises. House rule. */
    public static final double LEAST_RISE_KEPT = 0.5;

    private static final double COVERAGE = Normal.quantile(Conformance.DEFAULT_PROBABILITY);

    private TrimGuards() {}

    /**
     * Whether a gain was raised until its channel clips.
     *
     * @param channel whose gain was raised
     * @param before run with the ramp before the trim, or as calibrated
     * @param after run with the ramp after it; of the levels that both hold, the topmost two that rose before are looked
     *     at, so that a display which is flat at its own peak by design is not blamed. Ramps of the channel alone
     *     are looked at, and greys, split into channels by the primaries of either run
     * @return refused when the rise, ln of upper over lower, fell below half of what it was, by more than its uncertainty
     *     (one-sided 95 %). A ramp with coarse levels shows clipping only when it reaches down to the next level
     */
    public static Verdict gain(Channel channel, MeasuredRun before, MeasuredRun after) {
        Verdict alone = rise(pairs(before, after, r -> isAlone(channel, r, before), channel), before, after, XYZ::y);
        if (alone instanceof Verdict.Refused) {
            return alone;
        }
        Verdict greys = greys(channel, before, after);
        return greys instanceof Verdict.NotMeasured && alone instanceof Verdict.Allowed ? alone : greys;
    }

    private static boolean isAlone(Channel channel, Reading reading, MeasuredRun run) {
        return channel.isAlone(reading.patch(), run.readings().codes().black());
    }

    private static Verdict greys(Channel channel, MeasuredRun before, MeasuredRun after) {
        List<Reading[]> greys = pairs(before, after, r -> r.patch().isGrey(), channel);
        if (greys.size() < 2) {
            return new Verdict.NotMeasured(Verdict.Missing.TOP_OF_RAMP);
        }
        Optional<Matrix3> split = split(after.readings()).or(() -> split(before.readings()));
        return split.map(s -> rise(greys, before, after, xyz -> share(s, channel, xyz)))
                .orElse(new Verdict.NotMeasured(Verdict.Missing.PRIMARIES));
    }

    /**
     * Whether a black level lifts the floor.
     *
     * @param calibrated run with black as calibrated
     * @param after run with black after the trim
     * @param tolerance how far black may rise, cd/m2, not negative
     * @return by JCGM 106:2012 at a probability of 0.95: refused when the rise is beyond the tolerance surely, undecided
     *     when it is inside the uncertainty
     */
    public static Verdict blackLevel(MeasuredRun calibrated, MeasuredRun after, double tolerance) {
        Require.notNegative("tolerance of black in cd/m2", tolerance);
        Optional<Reading> then = calibrated.readings().black();
        Optional<Reading> now = after.readings().black();
        if (then.isEmpty() || now.isEmpty()) {
            return new Verdict.NotMeasured(Verdict.Missing.BLACK);
        }
        Reading first = then.get();
        Reading second = now.get();
        Estimate rise = new Estimate(
                second.luminance() - first.luminance(),
                LinearCombination.standardUncertainty(List.of(
                        after.uncertainty().ofLuminance(1, second.luminance()),
                        calibrated.uncertainty().ofLuminance(-1, first.luminance()))));
        return switch (Conformance.decide(rise, Limits.atMost(tolerance))) {
            case WITHIN -> new Verdict.Allowed();
            case UNDECIDED -> new Verdict.Undecided(first, second, rise, tolerance);
            case BEYOND -> new Verdict.Refused(Verdict.Reason.FLOOR_RISES, first, second, rise, tolerance);
        };
    }

    /** Before and after of each level that both hold, from the top down. */
    private static List<Reading[]> pairs(
            MeasuredRun before, MeasuredRun after, Predicate<Reading> belongs, Channel channel) {
        List<Reading[]> pairs = new ArrayList<>();
        for (Reading b : before.readings().all()) {
            if (belongs.test(b)) {
                after.readings()
                        .atLevelOf(b.patch(), before.readings().codes())
                        .ifPresent(a -> pairs.add(new Reading[] {b, a}));
            }
        }
        pairs.sort(Comparator.comparingInt((Reading[] p) -> channel.code(p[0].patch()))
                .reversed());
        return pairs;
    }

    private static Verdict rise(
            List<Reading[]> pairs, MeasuredRun before, MeasuredRun after, ToDoubleFunction<XYZ> light) {
        for (int i = 0; i + 1 < pairs.size(); i++) {
            Reading[] upper = pairs.get(i);
            Reading[] lower = pairs.get(i + 1);
            Optional<Estimate> rose = logRise(before, lower[0], upper[0], light);
            if (rose.isPresent() && rose.get().value() > 0 && rose.get().exceeds(2 * COVERAGE)) {
                return verdict(rose.get(), logRise(after, lower[1], upper[1], light), lower[1], upper[1]);
            }
        }
        return new Verdict.NotMeasured(Verdict.Missing.TOP_OF_RAMP);
    }

    private static Verdict verdict(Estimate rose, Optional<Estimate> rises, Reading lower, Reading upper) {
        if (rises.isEmpty()) {
            return new Verdict.NotMeasured(Verdict.Missing.TOP_OF_RAMP);
        }
        double limit = LEAST_RISE_KEPT * rose.value();
        Estimate now = rises.get();
        double lost = rose.value() - now.value();
        double u = Math.hypot(rose.standardUncertainty(), now.standardUncertainty());
        return now.value() < limit && lost > COVERAGE * u
                ? new Verdict.Refused(Verdict.Reason.CHANNEL_CLIPS, lower, upper, now, limit)
                : new Verdict.Allowed();
    }

    /** ln(upper / lower) with what noise leaves of it; empty when one of them has no light of the channel. */
    private static Optional<Estimate> logRise(
            MeasuredRun run, Reading lower, Reading upper, ToDoubleFunction<XYZ> light) {
        if (light.applyAsDouble(lower.xyz()) <= 0 || light.applyAsDouble(upper.xyz()) <= 0) {
            return Optional.empty();
        }
        return Optional.of(Propagation.of(
                List.of(new Measured(lower.xyz(), run.uncertainty()), new Measured(upper.xyz(), run.uncertainty())),
                c -> Math.log(
                        Math.max(light.applyAsDouble(c[1]), 1e-12) / Math.max(light.applyAsDouble(c[0]), 1e-12))));
    }

    /** X, Y, Z to the light of the three channels, from patches of one primary alone less black. */
    private static Optional<Matrix3> split(Readings run) {
        XYZ black = run.black().map(Reading::xyz).orElse(XYZ.BLACK).times(-1);
        Optional<XYZ> red = run.primary(0).map(r -> r.xyz().plus(black));
        Optional<XYZ> green = run.primary(1).map(r -> r.xyz().plus(black));
        Optional<XYZ> blue = run.primary(2).map(r -> r.xyz().plus(black));
        if (red.isEmpty() || green.isEmpty() || blue.isEmpty()) {
            return Optional.empty();
        }
        Matrix3 mixture = Matrix3.ofColumns(red.get(), green.get(), blue.get());
        return mixture.determinant() == 0 ? Optional.empty() : Optional.of(mixture.inverse());
    }

    private static double share(Matrix3 split, Channel channel, XYZ xyz) {
        XYZ shares = split.times(xyz.x(), xyz.y(), xyz.z());
        return switch (channel) {
            case RED -> shares.x();
            case GREEN -> shares.y();
            case BLUE -> shares.z();
        };
    }
}
