package panelbook.colorimetry.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Our own simulations, no published source, save where a test names one. */
class StepWatchTest {
    private static final double NOISE = 0.003;

    @Test
    void theWidthGivesOneFalseAlarmInSomeTwoThousandRuns() {
        assertThat(RunLength.average(StepWatch.LAMBDA, StepWatch.WIDTH, 0)).isBetween(1900.0, 2200.0);
    }

    /** Source: Brown, Durbin and Evans 1975, Hawkins 1987: in control the residuals are independent and standard normal. */
    @Test
    void residualsOfAnAgeingPanelAreStandardNormal() {
        double sum = 0;
        double squares = 0;
        double products = 0;
        int count = 0;
        for (int seed = 0; seed < 400; seed++) {
            double[] r = StepWatch.residuals(hours(24), figures(random(seed), 24, 99, 0));
            for (int i = StepWatch.LEARNING; i < 24; i++) {
                sum += r[i];
                squares += r[i] * r[i];
                products += i > StepWatch.LEARNING ? r[i] * r[i - 1] : 0;
                count++;
            }
        }
        assertThat(sum / count).as("mean").isCloseTo(0, within(0.04));
        assertThat(squares / count).as("variance").isCloseTo(1, within(0.06));
        assertThat(products / count).as("serial covariance").isCloseTo(0, within(0.04));
    }

    @Test
    void slowAgeingIsNoStep() {
        long alarms = IntStream.range(0, 400)
                .filter(seed -> step(random(seed), 40, 99, 0).isPresent())
                .count();
        assertThat(alarms).as("false alarms on 400 panels of 40 runs").isLessThanOrEqualTo(16);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void aLargeStepIsToldByTheThirdRunAndDatedBetweenTheRunsAroundIt(long seed) {
        StepWatch.Step step = step(random(seed), 23, 20, -0.05).orElseThrow();
        assertThat(step.lastBefore()).as("last run before").isEqualTo(19);
        assertThat(step.firstAfter()).as("first run after").isEqualTo(20);
        assertThat(step.signalled()).as("run that raised it").isLessThanOrEqualTo(22);
        assertThat(step.size()).as("size of the step in ln luminance").isCloseTo(-0.05, within(0.01));
    }

    /** The full table is printed by {@link RunLengths}. */
    @Test
    void aStepOfSixStandardDeviationsIsFoundAndDatedToARun() {
        RunLengths.Steps steps = RunLengths.steps(400, 6);
        assertThat(steps.found()).as("share found within 12 runs").isGreaterThan(0.95);
        assertThat(steps.dated()).as("share of these dated to within a run").isGreaterThan(0.97);
        assertThat(steps.early()).as("share of alarms before the step").isLessThan(0.03);
    }

    @Test
    void oneWildReadingIsNoStep() {
        int alarms = 0;
        for (int seed = 0; seed < 100; seed++) {
            double[] figures = figures(random(seed), 30, 99, 0);
            figures[18] += 0.1;
            alarms += StepWatch.firstStep(hours(30), figures).isPresent() ? 1 : 0;
        }
        assertThat(alarms).as("alarms on 100 panels with one wild reading").isLessThanOrEqualTo(8);
    }

    @Test
    void aSeriesWithoutScatterIsNoStepAndAStepInItIsFound() {
        double[] still = new double[12];
        assertThat(StepWatch.firstStep(hours(12), still)).isEmpty();
        for (int i = 8; i < 12; i++) {
            still[i] = 1;
        }
        assertThat(StepWatch.firstStep(hours(12), still).orElseThrow().firstAfter())
                .isEqualTo(8);
    }

    /** First numbers of neighbouring seeds are alike, so the seeds are set far apart. */
    private static Random random(long seed) {
        return new Random(seed * 0x9E3779B97F4A7C15L + 1);
    }

    private static Optional<StepWatch.Step> step(Random random, int n, int at, double size) {
        return StepWatch.firstStep(hours(n), figures(random, n, at, size));
    }

    private static double[] hours(int n) {
        return IntStream.range(0, n).mapToDouble(i -> 1000 + 70 * i).toArray();
    }

    private static double[] figures(Random random, int n, int at, double size) {
        double[] hours = hours(n);
        return IntStream.range(0, n)
                .mapToDouble(i -> 5.7 - 1e-5 * hours[i] + NOISE * random.nextGaussian() + (i >= at ? size : 0))
                .toArray();
    }
}
