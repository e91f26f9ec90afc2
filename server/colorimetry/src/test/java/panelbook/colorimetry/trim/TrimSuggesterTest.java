package panelbook.colorimetry.trim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.TrimmedDisplay;
import panelbook.colorimetry.trim.ControlRange.Kind;
import panelbook.colorimetry.trim.TrimSuggestion.Reason;
import panelbook.colorimetry.trim.TrimSuggestion.WhyNot;
import panelbook.colorimetry.uncertainty.Estimate;

class TrimSuggesterTest {
    private static final Control RED = Bench.GAINS.get(0);
    private static final Control GREEN = Bench.GAINS.get(1);
    private static final Control BLUE = Bench.GAINS.get(2);

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 30);
    }

    /** Against trying every setting: 13 x 13 x 13 gains and 5 settings of a bias or of the black level. */
    @ParameterizedTest
    @MethodSource("seeds")
    void noSettingIsBetterThanTheOneSuggested(long seed) {
        Random random = new Random(seed);
        ClickEffects effects = learned(random);
        List<ControlRange> ranges = List.of(
                new ControlRange(RED, random.nextBoolean() ? Kind.GAIN : Kind.OTHER, 0, -6, 6),
                new ControlRange(GREEN, Kind.OTHER, random.nextInt(3) - 1, -6, 6),
                new ControlRange(BLUE, Kind.OTHER, 0, -6, 6),
                random.nextBoolean()
                        ? new ControlRange(Bench.BIASES.get(1), Kind.BIAS, 0, -2, 2)
                        : new ControlRange(Bench.BLACK_LEVEL, Kind.BLACK_LEVEL, 1, -2, 2));
        List<Wanted> wanted = List.of(
                wanted(GreyLevel.WHITE, random), wanted(new GreyLevel(50), random), wanted(new GreyLevel(10), random));
        Optional<Floor> floor = random.nextBoolean() ? Optional.empty() : Optional.of(new Floor(0.02, 0.0205));
        TrimSuggestion s = TrimSuggester.suggest(effects, ranges, wanted, Tolerances.DEFAULT, floor);
        double least = exhaustive(effects, ranges, wanted, floor);
        assertThat(s.costAfter()).isCloseTo(least, within(1e-5 * (1 + least)));
        assertThat(s.costAfter()).isLessThanOrEqualTo(s.costBefore() + 1e-12);
        assertThat(cost(effects, ranges, wanted, changes(ranges, s)))
                .isCloseTo(s.costAfter(), within(1e-5 * (1 + least)));
    }

    /** Fourteen controls of which white alone was read: three figures cannot tell them apart. */
    @Test
    @Timeout(20)
    void moreControlsThanFiguresAreAnsweredSoonAndNoWorseThanNothing() {
        Bench bench = new Bench(
                TrimmedDisplay.ofModel(Primaries.quantumDotLcd(), 0.1, new Random(1)),
                Instrument.COLORIMETER,
                new Random(2));
        Bench.GAINS.forEach(gain -> bench.turn(gain, -2));
        Bench.BIASES.forEach(bias -> bench.turn(bias, 1));
        bench.turn(Bench.BLACK_LEVEL, 1);
        List<Trial> trials = new ArrayList<>(bench.trials());
        for (int i = 0; i < 7; i++) {
            KeyedRun before = bench.last();
            trials.add(new Trial(Control.of("without effect " + i), 1, before, bench.read()));
        }
        ClickEffects effects = ClickEffects.of(trials, List.of());
        List<ControlRange> ranges = trials.stream()
                .map(t -> new ControlRange(t.control(), Kind.OTHER, 0, -10, 10))
                .toList();
        TrimSuggestion s = TrimSuggester.suggest(
                effects,
                ranges,
                List.of(new Wanted(GreyLevel.WHITE, -0.004, 0.003, -0.02)),
                Tolerances.DEFAULT,
                Optional.empty());
        assertThat(s.costAfter()).isLessThan(s.costBefore() / 2);
        assertThat(s.clicks().values()).allSatisfy(n -> assertThat(n).isBetween(-10, 10));
    }

    private static int[] changes(List<ControlRange> ranges, TrimSuggestion s) {
        return ranges.stream()
                .mapToInt(r -> s.clicks().getOrDefault(r.control(), 0))
                .toArray();
    }

    private static double exhaustive(
            ClickEffects effects, List<ControlRange> ranges, List<Wanted> wanted, Optional<Floor> floor) {
        double least = Double.POSITIVE_INFINITY;
        int[] n = new int[4];
        for (n[0] = -6; n[0] <= (ranges.get(0).kind() == Kind.GAIN ? 1 : 6); n[0]++) {
            for (n[1] = -6 - ranges.get(1).setting(); n[1] <= 6 - ranges.get(1).setting(); n[1]++) {
                for (n[2] = -6; n[2] <= 6; n[2]++) {
                    for (n[3] = -2 - ranges.get(3).setting();
                            n[3] <= 2 - ranges.get(3).setting();
                            n[3]++) {
                        double rise = 0;
                        for (int i = 0; i < 4; i++) {
                            rise += n[i]
                                    * effect(effects, ranges.get(i), GreyLevel.BLACK, Figure.LN_LUMINANCE)
                                            .value();
                        }
                        boolean low = floor.isEmpty()
                                || rise
                                        <= Math.log(floor.get().tolerated()
                                                / floor.get().now());
                        least = low ? Math.min(least, cost(effects, ranges, wanted, n)) : least;
                    }
                }
            }
        }
        return least;
    }

    /** Written anew from the definition: expected square of what is left, in tolerances. */
    private static double cost(ClickEffects effects, List<ControlRange> ranges, List<Wanted> wanted, int[] n) {
        double cost = 0;
        for (Wanted w : wanted) {
            double[] aims = {w.u(), w.v(), w.lnLuminance()};
            double[] tolerances = {0.001, 0.001, 0.01};
            for (int f = 0; f < 3; f++) {
                double left = aims[f];
                double variance = 0;
                for (int i = 0; i < n.length; i++) {
                    Estimate e = effect(effects, ranges.get(i), w.level(), Figure.values()[f]);
                    left -= n[i] * e.value();
                    variance += n[i] * n[i] * e.standardUncertainty() * e.standardUncertainty();
                }
                cost += (left * left + variance) / (tolerances[f] * tolerances[f]);
            }
        }
        return cost;
    }

    private static Estimate effect(ClickEffects effects, ControlRange r, GreyLevel level, Figure f) {
        return effects.of(r.control(), level, f).map(Effect::perClick).orElse(new Estimate(0, 0));
    }

    private static Wanted wanted(GreyLevel level, Random random) {
        return new Wanted(
                level, 0.004 * random.nextGaussian(), 0.004 * random.nextGaussian(), 0.02 * random.nextGaussian());
    }

    private static ClickEffects learned(Random random) {
        List<List<Trial>> others = new ArrayList<>();
        for (int d = 0; d < 3; d++) {
            others.add(ClickEffectsTest.worked(random).trials());
        }
        return ClickEffects.of(ClickEffectsTest.worked(random).trials(), others);
    }

    private static List<ControlRange> gains(int least, int most) {
        return Bench.GAINS.stream()
                .map(c -> new ControlRange(c, Kind.GAIN, 0, least, most))
                .toList();
    }

    private static TrimSuggestion white(List<ControlRange> ranges, double u, double v, double ln) {
        return TrimSuggester.suggest(
                learned(new Random(7)),
                ranges,
                List.of(new Wanted(GreyLevel.WHITE, u, v, ln)),
                Tolerances.DEFAULT,
                Optional.empty());
    }

    @Test
    void aGainIsRaisedByNoMoreThanOneClickAboveItsCalibratedSettingAndTheAnswerSaysSo() {
        TrimSuggestion s = white(gains(-20, 20), 0.004, 0.001, 0.02);
        assertThat(s.clicks().values()).allSatisfy(n -> assertThat(n).isLessThanOrEqualTo(1));
        assertThat(s.whyNotMore())
                .filteredOn(w -> w.control().equals(Optional.of(RED)))
                .extracting(WhyNot::reason)
                .containsExactly(Reason.GAIN_WOULD_CLIP);
    }

    @Test
    void aControlAtItsEndIsNamed() {
        TrimSuggestion s = white(gains(-1, 1), -0.004, -0.001, -0.02);
        assertThat(s.clicks()).containsEntry(RED, -1);
        assertThat(s.whyNotMore()).contains(new WhyNot(Reason.BOUND, Optional.of(RED), saved(s, Reason.BOUND, RED)));
        assertThat(saved(s, Reason.BOUND, RED)).isPositive();
    }

    private static double saved(TrimSuggestion s, Reason reason, Control control) {
        return s.whyNotMore().stream()
                .filter(w -> w.reason() == reason && w.control().equals(Optional.of(control)))
                .mapToDouble(WhyNot::wouldSave)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void halfAClickIsNotToBeHad() {
        ClickEffects effects = learned(new Random(7));
        double u = effects.of(RED, GreyLevel.WHITE, Figure.U)
                .orElseThrow()
                .perClick()
                .value();
        double v = effects.of(RED, GreyLevel.WHITE, Figure.V)
                .orElseThrow()
                .perClick()
                .value();
        double ln = effects.of(RED, GreyLevel.WHITE, Figure.LN_LUMINANCE)
                .orElseThrow()
                .perClick()
                .value();
        TrimSuggestion s = TrimSuggester.suggest(
                effects,
                List.of(new ControlRange(RED, Kind.GAIN, 0, -9, 9)),
                List.of(new Wanted(GreyLevel.WHITE, -2.5 * u, -2.5 * v, -2.5 * ln)),
                new Tolerances(0.0002, 0.002),
                Optional.empty());
        assertThat(s.clicks().get(RED)).isIn(-2, -3);
        assertThat(s.whyNotMore())
                .extracting(WhyNot::reason)
                .contains(Reason.WHOLE_CLICKS)
                .doesNotContain(Reason.OUT_OF_REACH);
        assertThat(Math.abs(s.rest().get(0).u().value())).isCloseTo(Math.abs(u) / 2, within(1e-12));
        assertThat(s.rest().get(0).u().standardUncertainty()).isPositive();
    }

    @Test
    void whatGainsCannotReachIsSaid() {
        // three figures and one control that moves them in a fixed ratio
        TrimSuggestion s = white(List.of(new ControlRange(BLUE, Kind.GAIN, 0, -20, 20)), -0.01, 0, 0);
        assertThat(s.whyNotMore()).extracting(WhyNot::reason).contains(Reason.OUT_OF_REACH);
    }

    @Test
    void aBlackLevelThatWouldLiftTheFloorIsHeldBackAndTheAnswerSaysSo() {
        ClickEffects effects = learned(new Random(7));
        List<ControlRange> ranges = List.of(new ControlRange(Bench.BLACK_LEVEL, Kind.BLACK_LEVEL, 0, -9, 9));
        List<Wanted> crushed = List.of(new Wanted(GreyLevel.BLACK, 0, 0, 0.3));
        TrimSuggestion free = TrimSuggester.suggest(effects, ranges, crushed, Tolerances.DEFAULT, Optional.empty());
        TrimSuggestion held = TrimSuggester.suggest(
                effects, ranges, crushed, Tolerances.DEFAULT, Optional.of(new Floor(0.020, 0.0225)));
        double perClick = effects.of(Bench.BLACK_LEVEL, GreyLevel.BLACK, Figure.LN_LUMINANCE)
                .orElseThrow()
                .perClick()
                .value();
        int most = (int) Math.floor(Math.log(0.0225 / 0.020) / perClick);
        assertThat(most).isBetween(1, 8);
        assertThat(free.clicks().get(Bench.BLACK_LEVEL)).isGreaterThan(most);
        assertThat(held.clicks().get(Bench.BLACK_LEVEL)).isEqualTo(most);
        assertThat(held.whyNotMore()).extracting(WhyNot::reason).contains(Reason.FLOOR_WOULD_RISE);
    }

    @Test
    void aControlOfUnknownEffectIsLeftOutByName() {
        Control hue = Control.of("hue");
        TrimSuggestion s = white(List.of(new ControlRange(hue, Kind.OTHER, 0, -5, 5)), 0.002, 0, 0);
        assertThat(s.effectUnknown()).containsExactly(hue);
        assertThat(s.isNothingToDo()).isTrue();
        assertThat(s.costAfter()).isEqualTo(s.costBefore());
    }

    @Test
    void whatIsWithinReachOfNoClickIsLeftAlone() {
        assertThat(white(gains(-20, 20), 0.0001, -0.0001, 0.0005).isNothingToDo())
                .isTrue();
    }

    @Test
    void theWayFromOffsetToOffsetIsWantedAtWhiteAndTheSharedGreys() {
        Random random = new Random(2);
        TrimmedDisplay hero = ClickEffectsTest.model(random);
        TrimmedDisplay follower = ClickEffectsTest.model(random);
        AgreedOffset agreed = offset(follower, hero);
        AgreedOffset now = offset(follower.gain(0, -3), hero);
        List<Wanted> wanted = Wanted.between(now, agreed);
        assertThat(wanted).extracting(Wanted::level).startsWith(GreyLevel.WHITE).contains(new GreyLevel(50));
        double truth = 3 * ClickEffectsTest.truth(follower, RED, GreyLevel.WHITE, Figure.U);
        assertThat(wanted.get(0).u()).isCloseTo(truth, within(0.03 * truth));
    }

    private static AgreedOffset offset(TrimmedDisplay follower, TrimmedDisplay hero) {
        return AgreedOffset.of(
                Bench.ramp(follower, Instrument.PERFECT, new Random(1)),
                Bench.ramp(hero, Instrument.PERFECT, new Random(1)));
    }

    @Test
    void aControlOrALevelThatComesTwiceIsRefused() {
        ControlRange red = new ControlRange(RED, Kind.GAIN, 0, -5, 5);
        assertThatThrownBy(() -> white(List.of(red, red), 0, 0, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("control gain at red comes twice; keep one");
    }
}
