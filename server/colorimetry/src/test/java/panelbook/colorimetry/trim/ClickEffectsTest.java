package panelbook.colorimetry.trim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.TrimmedDisplay;
import panelbook.colorimetry.uncertainty.Estimate;

class ClickEffectsTest {
    private static final double PRIOR = Figure.U.spread();

    /**
     * Table 5.2 of Gelman et al., Bayesian Data Analysis, 3rd ed. (eight schools: effects 28, 8, -3, 7, -1, 1, 18, 12 with
     * standard errors 15, 10, 16, 11, 9, 11, 10, 18; from memory). Given a spread that is next to nothing, all effects are
     * the pooled mean 7.7 with standard error 4.1 that the book prints (5.5); given a great one, school A keeps its own.
     */
    @Test
    void theEightSchoolsArePooledOrLeftApartAsThePriorOfTheirSpreadSays() {
        double[] y = {28, 8, -3, 7, -1, 1, 18, 12};
        double[] s = {15, 10, 16, 11, 9, 11, 10, 18};
        List<Slope> others = new ArrayList<>();
        for (int i = 1; i < 8; i++) {
            others.add(new Slope(y[i], s[i], 1));
        }
        Optional<Slope> a = Optional.of(new Slope(y[0], s[0], 1));
        Estimate pooled = Shrinkage.of(a, others, 1e-4).estimate();
        assertThat(pooled.value()).isCloseTo(7.7, within(0.05));
        assertThat(pooled.standardUncertainty()).isCloseTo(4.1, within(0.05));
        Estimate apart = Shrinkage.of(a, others, 1e5).estimate();
        assertThat(apart.value()).isBetween(15.0, 28.0);
    }

    @Test
    void aDisplayAloneKeepsItsOwnSlopeAndItsNoise() {
        Shrinkage alone = Shrinkage.of(Optional.of(new Slope(0.001, 0.0002, 3)), List.of(), PRIOR);
        assertThat(alone.estimate().value()).isCloseTo(0.001, within(1e-9));
        assertThat(alone.estimate().standardUncertainty()).isCloseTo(0.0002, within(1e-7));
        assertThat(alone.quantile(0.975)).isCloseTo(0.001 + 1.959964 * 0.0002, within(1e-8));
    }

    /** Effects of the model, spread between displays, number of others, own noise: the interval must hold the truth. */
    @ParameterizedTest(name = "spread {0}, {1} other displays, own noise {2}")
    @CsvSource({
        "0.0001, 1, 0.0004",
        "0.0003, 1, 0.0004",
        "0.0001, 3, 0.0002",
        "0.0003, 3, 0.0004",
        "0.0003, 8, 0.0002",
        "0.0006, 3, 0.0004",
        "0.0006, 8, 0.0001",
        "0.001, 4, 0.0003",
        "0.0003, 4, 0",
    })
    void theIntervalHoldsTheTrueEffectAsOftenAsItSays(double spread, int displays, double ownNoise) {
        Random random = new Random(5);
        int held = 0;
        int runs = 2000;
        for (int i = 0; i < runs; i++) {
            double model = 0.001 + 0.002 * random.nextDouble();
            double truth = model + spread * random.nextGaussian();
            Optional<Slope> own = ownNoise > 0
                    ? Optional.of(new Slope(truth + ownNoise * random.nextGaussian(), ownNoise, 2))
                    : Optional.empty();
            List<Slope> others = new ArrayList<>();
            for (int d = 0; d < displays; d++) {
                double noise = 0.0001 + 0.0003 * random.nextDouble();
                others.add(new Slope(model + spread * random.nextGaussian() + noise * random.nextGaussian(), noise, 2));
            }
            Effect e = ClickEffects.effect(own, others, PRIOR);
            held += e.lower() <= truth && truth <= e.upper() ? 1 : 0;
        }
        assertThat(held / (double) runs)
                .as("share of intervals that hold the truth, stated %s", ClickEffects.COVERAGE)
                .isBetween(0.93, 0.995);
    }

    /** Displays with controls, a meter with noise, overshoot and all; the truth is read without noise. */
    @Test
    void onSimulatedDisplaysTheIntervalsHoldWhatAClickReallyDoes() {
        int held = 0;
        int asked = 0;
        for (int seed = 1; seed <= 60; seed++) {
            Random random = new Random(seed);
            List<List<Trial>> others = new ArrayList<>();
            for (int d = 0; d < 3; d++) {
                others.add(worked(random).trials());
            }
            TrimmedDisplay display = model(random);
            Bench bench = worked(display, random);
            ClickEffects effects = ClickEffects.of(bench.trials(), others);
            for (Control control : Bench.GAINS) {
                for (GreyLevel level : List.of(GreyLevel.WHITE, new GreyLevel(50))) {
                    for (Figure figure : Figure.values()) {
                        Effect e = effects.of(control, level, figure).orElseThrow();
                        double truth = truth(display, control, level, figure);
                        asked++;
                        held += e.lower() <= truth && truth <= e.upper() ? 1 : 0;
                    }
                }
            }
        }
        assertThat(held / (double) asked)
                .as("share of %d intervals that hold the truth, stated %s", asked, ClickEffects.COVERAGE)
                .isBetween(0.93, 0.99);
    }

    @Test
    void fewTrialsAreDrawnTowardsTheModelAndManyAreNot() {
        List<Slope> others = DoubleStream.of(0.00099, 0.00101, 0.00100, 0.00102, 0.00098)
                .mapToObj(v -> new Slope(v, 0.00002, 10))
                .toList();
        Estimate few = Shrinkage.of(Optional.of(new Slope(0.0016, 0.0004, 1)), others, PRIOR)
                .estimate();
        Estimate many = Shrinkage.of(Optional.of(new Slope(0.0016, 0.00001, 40)), others, PRIOR)
                .estimate();
        assertThat(few.value()).isBetween(0.00095, 0.0011);
        assertThat(many.value()).isCloseTo(0.0016, within(0.00002));
        assertThat(few.standardUncertainty()).isLessThan(0.0004);
    }

    /** Going past and coming back share the reading in between: its noise must not be counted twice as if it were new. */
    @Test
    void anOvershootAndItsWayBackAreOneRegression() {
        Random random = new Random(9);
        double sumSquares = 0;
        double stated = 0;
        int runs = 400;
        Instrument meter = new Instrument(0, 0.001, 0.0002, 0.0001, 0.01, 0.002);
        Control red = Bench.GAINS.get(0);
        for (int i = 0; i < runs; i++) {
            TrimmedDisplay display = TrimmedDisplay.ofModel(Primaries.lcd(), 0, new Random(1));
            Bench bench = new Bench(display, meter, random);
            bench.turn(red, -4);
            bench.turn(red, 4);
            Effect e = ClickEffects.of(bench.trials(), List.of())
                    .of(red, GreyLevel.WHITE, Figure.U)
                    .orElseThrow();
            double truth = truth(display, red, GreyLevel.WHITE, Figure.U);
            sumSquares += (e.perClick().value() - truth) * (e.perClick().value() - truth);
            stated = e.perClick().standardUncertainty();
        }
        assertThat(Math.sqrt(sumSquares / runs)).isCloseTo(stated, within(0.1 * stated));
    }

    @Test
    void aControlThatWasNeverTurnedHasTheModelsEffectAndAWiderInterval() {
        Random random = new Random(3);
        List<List<Trial>> others =
                List.of(worked(random).trials(), worked(random).trials());
        Effect unseen = ClickEffects.of(List.of(), others)
                .of(Bench.GAINS.get(2), GreyLevel.WHITE, Figure.V)
                .orElseThrow();
        assertThat(unseen.ownTrials()).isZero();
        assertThat(unseen.otherDisplays()).isEqualTo(2);
        Effect seen = ClickEffects.of(worked(random).trials(), others)
                .of(Bench.GAINS.get(2), GreyLevel.WHITE, Figure.V)
                .orElseThrow();
        assertThat(seen.upper() - seen.lower()).isLessThan(unseen.upper() - unseen.lower());
    }

    @Test
    void noTrialsTellNothing() {
        assertThat(ClickEffects.of(List.of(), List.of()).all()).isEmpty();
        Bench bench = new Bench(model(new Random(1)), Instrument.COLORIMETER, new Random(1));
        bench.turn(Bench.GAINS.get(0), 0);
        assertThat(ClickEffects.of(bench.trials(), List.of()).all()).isEmpty();
    }

    static TrimmedDisplay model(Random random) {
        return TrimmedDisplay.ofModel(Primaries.emissive(), 0.15, random);
    }

    static Bench worked(Random random) {
        return worked(model(random), random);
    }

    /** A visit's trims: every gain and bias and the black level, one overshoot among them. */
    static Bench worked(TrimmedDisplay display, Random random) {
        Bench bench = new Bench(display, Instrument.COLORIMETER, random);
        for (int channel = 0; channel < 3; channel++) {
            bench.turn(Bench.GAINS.get(channel), -2 - random.nextInt(3));
            bench.turn(Bench.GAINS.get(channel), 1);
            bench.turn(Bench.BIASES.get(channel), 2 - random.nextInt(2));
        }
        bench.turn(Bench.BLACK_LEVEL, 2);
        bench.turn(Bench.BLACK_LEVEL, -1);
        return bench;
    }

    static double truth(TrimmedDisplay display, Control control, GreyLevel level, Figure figure) {
        return value(Bench.turned(display, control, -1), level, figure) * -1 + value(display, level, figure);
    }

    private static double value(TrimmedDisplay display, GreyLevel level, Figure figure) {
        MeasuredRun run = Bench.run(
                display.measure(Bench.CODES, Bench.GREYS, Instrument.PERFECT, new Random(1)), Instrument.PERFECT);
        return run.readings().greys().stream()
                .filter(r -> GreyLevel.of(Bench.CODES.toSignal(r.patch().red())).equals(level))
                .findFirst()
                .map(r -> figure.value(new panelbook.colorimetry.uncertainty.Measured(r.xyz(), run.uncertainty())))
                .orElseThrow();
    }
}
