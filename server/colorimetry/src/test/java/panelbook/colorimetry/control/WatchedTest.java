package panelbook.colorimetry.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.control.Move.Likeness;
import panelbook.colorimetry.uncertainty.Estimate;

/** Our own simulations, no published source, save where a test names one. */
class WatchedTest {
    private static final double NOISE = 0.003;
    private static final int RUNS = 24;

    /** Independent check: Hipparchus's QR decomposition solves the same least squares. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void theSizeOfAStepIsThatOfLeastSquares(long seed) {
        Random random = random(seed);
        double[] hours = hours(RUNS);
        double[] figures = ageing(random, hours, 15, 0.05);
        Watched.Step step = one(hours, figures, meters(RUNS, RUNS)).steps().get(0);
        Array2DRowRealMatrix design = new Array2DRowRealMatrix(RUNS, 3);
        for (int i = 0; i < RUNS; i++) {
            design.setRow(i, new double[] {1, hours[i] / 1000, i >= step.firstAfter() ? 1 : 0});
        }
        double solved = new QRDecomposition(design)
                .getSolver()
                .solve(new ArrayRealVector(figures))
                .getEntry(2);
        assertThat(step.size().parts().get(0).value()).as("size of the step").isCloseTo(solved, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void whatIsAddedToAllFiguresOrToTheAgeingChangesNoStep(long seed) {
        double[] hours = hours(RUNS);
        double[] figures = ageing(random(seed), hours, 14, -0.04);
        double[] other = IntStream.range(0, RUNS)
                .mapToDouble(i -> figures[i] + 3 - 4e-5 * hours[i])
                .toArray();
        Watched.Step step = one(hours, figures, meters(RUNS, RUNS)).steps().get(0);
        Watched.Step same = one(hours, other, meters(RUNS, RUNS)).steps().get(0);
        assertThat(same.firstAfter()).isEqualTo(step.firstAfter());
        assertThat(length(same.size())).isCloseTo(length(step.size()), within(1e-8));
    }

    /** Source: JCGM 100:2008, 6.2: with k = 2 some 95 % of the errors lie inside, fewer degrees of freedom allowed for. */
    @Test
    void theUncertaintyOfASizeCoversItsError() {
        int inside = 0;
        int panels = 1000;
        for (int seed = 0; seed < panels; seed++) {
            double[] hours = hours(14);
            Estimate size = one(hours, ageing(random(seed), hours, 11, 0.05), meters(14, 14))
                    .at(11, 11)
                    .orElseThrow()
                    .size()
                    .parts()
                    .get(0);
            inside += Math.abs(size.value() - 0.05) <= 2 * size.standardUncertainty() ? 1 : 0;
        }
        assertThat(inside / (double) panels)
                .as("share inside two uncertainties")
                .isBetween(0.93, 0.98);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void aStepBackIsFoundAndTheFirstStepStandsNoLonger(long seed) {
        double[] hours = hours(30);
        double[] figures = ageing(random(seed), hours, 14, -0.05);
        List<Watched.Step> before = one(hours, figures, meters(30, 30)).steps();
        assertThat(before.get(0).stands()).as("while it lasts").isTrue();
        for (int i = 22; i < 30; i++) {
            figures[i] += 0.05;
        }
        List<Watched.Step> steps = one(hours, figures, meters(30, 30)).steps();
        assertThat(steps).as("there and back").hasSizeGreaterThanOrEqualTo(2);
        assertThat(steps.get(0).firstAfter()).isEqualTo(14);
        assertThat(steps.get(0).stands()).as("once it went back").isFalse();
        assertThat(steps.get(1).firstAfter()).isEqualTo(22);
        assertThat(steps.get(1).stands()).as("the step back").isFalse();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void anotherMeterIsNoStepOfTheDisplayButIsTold(long seed) {
        double[] hours = hours(RUNS);
        Watched watched = one(hours, ageing(random(seed), hours, 16, 0.05), meters(RUNS, 16));
        assertThat(watched.steps()).as("steps of the display").isEmpty();
        Watched.Place change = watched.changesOfMeter().get(0);
        assertThat(change.lastBefore()).isEqualTo(15);
        assertThat(change.firstAfter()).isEqualTo(16);
        assertThat(length(change.size())).isCloseTo(0.05, within(0.012));
    }

    @Test
    void aStepOfTheDisplayIsFoundThroughMetersThatTakeTurns() {
        int found = 0;
        for (int seed = 0; seed < 50; seed++) {
            double[] hours = hours(36);
            double[] figures = ageing(random(seed), hours, 20, 0.05);
            List<String> meters = IntStream.range(0, 36)
                    .mapToObj(i -> i % 2 == 0 ? "one" : "other")
                    .toList();
            for (int i = 1; i < 36; i += 2) {
                figures[i] += 0.04;
            }
            found += one(hours, figures, meters).steps().stream().anyMatch(s -> s.firstAfter() == 20) ? 1 : 0;
        }
        assertThat(found).as("of 50 displays").isGreaterThanOrEqualTo(46);
    }

    @Test
    void ageingThatBendsIsNoStepWorthTelling() {
        int told = 0;
        for (int seed = 0; seed < 200; seed++) {
            Random random = random(seed);
            double[] hours = hours(40);
            double[] figures = new double[40];
            for (int i = 0; i < 40; i++) {
                figures[i] = 5.7 - Math.pow(hours[i] / 60_000, 0.6) + NOISE / 2 * random.nextGaussian();
            }
            told += one(hours, figures, meters(40, 40)).steps().stream().anyMatch(s -> length(s.size()) > 0.03) ? 1 : 0;
        }
        assertThat(told).as("of 200 panels that age by a stretched exponential").isLessThanOrEqualTo(2);
    }

    @Test
    void twoKindsOfFiguresStepTogether() {
        Random random = random(3);
        double[] hours = hours(20);
        double[][] uv = new double[2][20];
        for (int i = 0; i < 20; i++) {
            uv[0][i] = 0.1978 + 2e-4 * random.nextGaussian() + (i >= 12 ? 0.003 : 0);
            uv[1][i] = 0.4683 + 2e-4 * random.nextGaussian() + (i >= 12 ? -0.004 : 0);
        }
        Watched.Step step = StepWatch.watch(Track.of(hours, uv, meters(20, 20), new double[] {2e-4, 2e-4}))
                .steps()
                .get(0);
        assertThat(step.firstAfter()).isEqualTo(12);
        assertThat(length(step.size())).isCloseTo(0.005, within(4e-4));
    }

    @Test
    void whatAnotherDisplayMovedByIsToldFromItsFirstRunAfter() {
        int alike = 0;
        int apart = 0;
        for (int seed = 0; seed < 300; seed++) {
            double[] hours = hours(14);
            Move here = one(hours, ageing(random(3 * seed), hours, 11, 0.06), meters(14, 14))
                    .steps()
                    .get(0)
                    .size();
            Move there = place(ageing(random(3 * seed + 1), hours, 13, 0.06), 13);
            Move still = place(ageing(random(3 * seed + 2), hours, 99, 0), 13);
            alike += here.like(there) == Likeness.ALIKE ? 1 : 0;
            apart += here.like(still) == Likeness.APART ? 1 : 0;
        }
        assertThat(alike / 300.0).as("the same step").isGreaterThan(0.93);
        assertThat(apart / 300.0).as("no step").isGreaterThan(0.99);
    }

    private static Move place(double[] figures, int first) {
        return one(hours(14), figures, meters(14, 14))
                .at(first, first)
                .orElseThrow()
                .size();
    }

    /** Law: likeness has no side and no unit, and a real move is like itself. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void likenessHasNoSideAndNoUnit(long seed) {
        Random random = random(seed);
        for (int i = 0; i < 200; i++) {
            Move a = move(random);
            Move b = move(random);
            assertThat(a.like(b)).isEqualTo(b.like(a));
            assertThat(times(a, 7).like(times(b, 7))).isEqualTo(a.like(b));
            assertThat(a.like(a)).isEqualTo(a.isReal() ? Likeness.ALIKE : Likeness.UNTOLD);
            assertThat(a.like(times(a, -1))).isNotEqualTo(Likeness.ALIKE);
        }
    }

    @Test
    void movesOfOtherKindsDoNotCompare() {
        Move one = new Move(List.of(new Estimate(1, 0.1)));
        Move two = new Move(List.of(new Estimate(1, 0.1), new Estimate(1, 0.1)));
        assertThatThrownBy(() -> one.like(two)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Move(List.of())).hasMessageContaining("0");
    }

    private static Move move(Random random) {
        return new Move(List.of(
                new Estimate(random.nextGaussian(), 0.05 + random.nextDouble()),
                new Estimate(random.nextGaussian(), 0.05 + random.nextDouble())));
    }

    private static Move times(Move move, double factor) {
        return new Move(move.parts().stream().map(part -> part.times(factor)).toList());
    }

    private static double length(Move move) {
        return move.length().value();
    }

    private static Watched one(double[] hours, double[] figures, List<String> meters) {
        return StepWatch.watch(Track.of(hours, new double[][] {figures}, meters, new double[] {0.001}));
    }

    private static List<String> meters(int n, int change) {
        return IntStream.range(0, n).mapToObj(i -> i < change ? "one" : "other").toList();
    }

    private static double[] hours(int n) {
        return IntStream.range(0, n).mapToDouble(i -> 1000 + 70 * i).toArray();
    }

    private static double[] ageing(Random random, double[] hours, int at, double size) {
        return IntStream.range(0, hours.length)
                .mapToDouble(i -> 5.7 - 1e-5 * hours[i] + NOISE * random.nextGaussian() + (i >= at ? size : 0))
                .toArray();
    }

    private static Random random(long seed) {
        return new Random(seed * 0x9E3779B97F4A7C15L + 1);
    }
}
