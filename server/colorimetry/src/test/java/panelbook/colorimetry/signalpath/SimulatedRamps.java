package panelbook.colorimetry.signalpath;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;

/**
 * Grey ramps of displays with a known fault, drawn at random: range, bit depth, levels, peak, leak, roll-off, ageing and
 * noise. The faults are put on the codes, on the mode of the simulated display or on its light, not on the curves that
 * the diagnosis fits.
 */
final class SimulatedRamps {
    /** Noise of 2 % and a near-black floor. */
    private static final Instrument METER = new Instrument(0, 0.02, 0.0005, 0.001, 0.03, 0.003);

    private static final Instrument NOISELESS = new Instrument(0, 0, 0, 0, 0.03, 0.003);
    private static final int[] STEPS = {4, 8, 10, 16, 20, 32};

    private SimulatedRamps() {}

    /** The targets of the table. */
    enum Aim {
        PQ(RgbSpace.P3_D65, new Eotf.Pq(), 1000, 0.005),
        HLG(RgbSpace.BT_2020, Eotf.Hlg.forPeak(1000), 1000, 0.005),
        BT_1886(RgbSpace.BT_709, new Eotf.Bt1886(), 100, 0.03),
        POWER_2_2(RgbSpace.BT_709, new Eotf.Power(2.2), 120, 0.05),
        POWER_2_4(RgbSpace.BT_709, new Eotf.Power(2.4), 100, 0.02),
        POWER_2_6(RgbSpace.P3_D65, new Eotf.Power(2.6), 48, 0.01);

        private final RgbSpace space;
        private final Eotf eotf;
        private final double peak;
        private final double black;

        Aim(RgbSpace space, Eotf eotf, double peak, double black) {
            this.space = space;
            this.eotf = eotf;
            this.peak = peak;
            this.black = black;
        }

        Target with(CodeValues codes) {
            return new Target(space, eotf, codes, new LuminanceRange(black, peak));
        }
    }

    /** A ramp with and without noise. */
    record Drawn(Target target, List<Reading> noisy, List<Reading> noiseless) {}

    static Drawn draw(Aim aim, Explanation truth, Random random) {
        int[] depths = {8, 10, 12};
        SignalRange range = random.nextBoolean() ? SignalRange.FULL : SignalRange.NARROW;
        Target target = aim.with(new CodeValues(range, depths[random.nextInt(3)]));
        List<Patch> patches = Patches.greys(target.codes(), STEPS[random.nextInt(STEPS.length)]);
        Scene scene = scene(target, truth, random);
        long seed = random.nextLong();
        return new Drawn(
                target,
                scene.measure(patches, METER, new Random(seed)),
                scene.measure(patches, NOISELESS, new Random(seed)));
    }

    private record Scene(Target shown, SimulatedDisplay display, Explanation.Kind fault, double limit, double knee) {
        List<Reading> measure(List<Patch> patches, Instrument meter, Random random) {
            List<Patch> arriving = patches.stream().map(this::arriving).toList();
            List<Reading> readings = new ArrayList<>();
            for (Reading r : display.measure(shown, arriving, 0, meter, random)) {
                readings.add(
                        new Reading(patches.get(readings.size()), limited(r).xyz()));
            }
            return readings;
        }

        private Patch arriving(Patch sent) {
            int bits = shown.codes().bitDepth();
            CodeValues narrow = new CodeValues(SignalRange.NARROW, bits);
            double full = new CodeValues(SignalRange.FULL, bits).white();
            double span = narrow.white() - narrow.black();
            double code = switch (fault) {
                case FULL_SQUEEZED_TO_NARROW -> narrow.black() + span * sent.red() / full;
                case NARROW_EXPANDED_AS_FULL -> (sent.red() - narrow.black()) * full / span;
                default -> sent.red();
            };
            return Patch.grey((int) Math.min(
                    Math.max(Math.rint(code), shown.codes().least()),
                    shown.codes().greatest()));
        }

        /** A limiter that cuts the light of a relative display. */
        private Reading limited(Reading r) {
            double bend = knee * limit;
            double light = r.luminance();
            if (light <= bend) {
                return r;
            }
            double cut = knee >= 1 ? limit : bend + (limit - bend) * -Math.expm1(-(light - bend) / (limit - bend));
            return new Reading(r.patch(), r.xyz().times(cut / light));
        }
    }

    private static Scene scene(Target target, Explanation truth, Random random) {
        double aim = target.aims().white();
        boolean pqMode = truth.eotf().map(KnownEotf.PQ::equals).orElse(target.eotf() instanceof Eotf.Pq);
        double knee = random.nextBoolean() ? 1 : 0.5 + 0.45 * random.nextDouble();
        double aged = 0.8 + 0.25 * random.nextDouble();
        double leak = target.aims().black() * Math.pow(10, -0.7 + random.nextDouble());
        SimulatedDisplay.Builder display =
                SimulatedDisplay.builder(Primaries.emissive()).leak(leak).gains(aged, aged, aged);
        Target shown = target;
        double limit = Double.POSITIVE_INFINITY;
        switch (truth.kind()) {
            case WRONG_EOTF -> {
                // a display in another mode shows that mode's own peak
                double peak =
                        pqMode ? 400 + 1100 * random.nextDouble() : aim * Math.pow(10, -0.5 + random.nextDouble());
                Eotf eotf = truth.eotf().orElseThrow().at(peak);
                shown = new Target(
                        target.space(),
                        eotf,
                        target.codes(),
                        new LuminanceRange(target.aims().black(), peak));
                display.peak(pqMode ? peak : peak * 1.3).rollOffFrom(pqMode ? knee : 1);
            }
            case PEAK_LIMITED -> {
                double share = 0.25 + 0.45 * random.nextDouble();
                display.peak(pqMode ? aim * share : aim * 1.3).rollOffFrom(pqMode ? knee : 1);
                limit = pqMode ? limit : aim * aged * share;
            }
            default -> display.peak(aim * (1.05 + 0.5 * random.nextDouble())).rollOffFrom(pqMode ? knee : 1);
        }
        return new Scene(shown, display.build(), truth.kind(), limit, limit < aim * 10 ? knee : 1);
    }
}
