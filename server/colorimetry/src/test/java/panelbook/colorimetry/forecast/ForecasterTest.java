package panelbook.colorimetry.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleFunction;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.forecast.Series.Segment;
import panelbook.colorimetry.simulation.Ageing;

class ForecasterTest {
    private static final UV1976 D65 = new UV1976(0.1978, 0.4683);

    @Test
    void readingsOnALineCrossWhereTheLineDoes() {
        Forecast.Crossing c = crossing(luminance(10, 1000, h -> 500 * Math.exp(-1e-5 * h)), 450);
        double truth = -Math.log(0.9) / 1e-5;
        assertThat(c.expectedHours().orElseThrow()).as("expected crossing, h").isCloseTo(truth, within(1.0));
        assertThat(c.earliestHours()).as("earliest crossing, h").isCloseTo(truth, within(20.0));
        assertThat(((AgeingTrend) c.trend()).curve())
                .as("a curve where a line does")
                .isEmpty();
    }

    /** Source: the computed examples of the stretched exponential: tau 20,000 h, beta 0.7 is at 70 % after 4,585.8456 h. */
    @Test
    void readingsOnAStretchedExponentialCrossWhereTheCurveDoes() {
        Ageing ageing = new Ageing(20_000, 0.7);
        Forecast.Crossing c = crossing(luminance(12, 150, h -> 500 * ageing.remaining(h)), 350);
        assertThat(c.expectedHours().orElseThrow()).as("expected crossing, h").isCloseTo(4585.845580345, within(0.5));
        StretchedExponential curve = ((AgeingTrend) c.trend()).curve().orElseThrow();
        assertThat(curve.beta()).as("beta").isCloseTo(0.7, within(1e-4));
        assertThat(curve.tauHours()).as("tau, h").isCloseTo(20_000, within(10.0));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void theEarliestIsNeverLaterThanTheExpectedNorBeforeTheLastReadingNorBeyondTheHorizon(long seed) {
        Random random = new Random(seed);
        Segment<Double> segment =
                luminance(5 + random.nextInt(20), 300, h -> 400 * Math.exp(-2e-5 * h + 0.004 * random.nextGaussian()));
        if (Forecaster.luminance(segment, 340) instanceof Forecast.Crossing c) {
            assertThat(c.earliestHours())
                    .isBetween(segment.last().panelHours(), c.expectedHours().orElse(c.horizonHours()));
            assertThat(c.horizonHours()).isEqualTo(6 * segment.observedHours());
            if (c.earliestHours() > segment.last().panelHours()) {
                assertThat(c.trend().low(c.earliestHours()))
                        .as("lower edge of the band at the earliest crossing")
                        .isCloseTo(Math.log(340), within(1e-6));
            }
            assertThat(c.trend().low(3000)).isLessThan(c.trend().at(3000));
            assertThat(c.trend().high(3000)).isGreaterThan(c.trend().at(3000));
        }
    }

    /** A forecast goes by ratios: other units of light or of time change nothing but the units. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void twiceTheLightCrossesTwiceTheLimitAtTheSameHours(long seed) {
        List<Double> noise = new Random(seed).doubles(20, -0.004, 0.004).boxed().toList();
        DoubleUnaryOperator l = h -> 400 * Math.exp(-2e-5 * h + noise.get((int) (h / 300)));
        Forecast.Crossing one = crossing(luminance(20, 300, l), 320);
        Forecast.Crossing two = crossing(luminance(20, 300, h -> 2 * l.applyAsDouble(h)), 640);
        assertThat(two.earliestHours()).isCloseTo(one.earliestHours(), within(0.01));
        assertThat(two.expectedHours().orElseThrow())
                .isCloseTo(one.expectedHours().orElseThrow(), within(0.01));
    }

    @Test
    void fourReadingsAreTooFewAndSoAreManyAtTheSameHour() {
        assertThat(Forecaster.luminance(luminance(4, 1000, h -> 500 - h / 100), 400))
                .isEqualTo(new Forecast.TooFew(4, 5));
        assertThat(Forecaster.luminance(luminance(9, 0, h -> 500), 400)).isEqualTo(new Forecast.TooFew(1, 5));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void aPanelThatDoesNotFallIsFlatAndGetsNoDate(long seed) {
        Random random = new Random(seed * 77);
        Segment<Double> rising = luminance(12, 500, h -> 500 + h / 500 + 0.3 * random.nextGaussian());
        assertThat(Forecaster.luminance(rising, 450)).isInstanceOf(Forecast.Flat.class);
        assertThat(Forecaster.luminance(luminance(12, 500, h -> 500), 450)).isInstanceOf(Forecast.Flat.class);
    }

    @Test
    void whatLiesBeyondSixTimesTheHoursObservedIsNotForetold() {
        Forecast f = Forecaster.luminance(luminance(11, 100, h -> 500 * Math.exp(-1e-6 * h)), 450);
        assertThat(f).isInstanceOf(Forecast.NotWithinHorizon.class);
        assertThat(((Forecast.NotWithinHorizon) f).horizonHours()).isEqualTo(6000);
    }

    @Test
    void aPanelBelowTheFloorAlreadyIsSaidToBe() {
        Forecast f = Forecaster.luminance(luminance(11, 1000, h -> 500 * Math.exp(-1.5e-5 * h)), 440);
        assertThat(f).isInstanceOf(Forecast.BeyondAlready.class);
    }

    @Test
    void aLuminanceThatRisesCrossesACeiling() {
        Forecast.Crossing c = crossing(luminance(10, 1000, h -> 100 * Math.exp(1e-6 * h)), 102);
        assertThat(c.expectedHours().orElseThrow()).isCloseTo(Math.log(1.02) / 1e-6, within(1.0));
    }

    @Test
    void aWhiteThatDriftsCrossesTheCircleWhereTheLinesDo() {
        DoubleFunction<UV1976> drift = h -> new UV1976(D65.u() + 0.0005 + 3e-7 * h, D65.v() - 4e-7 * h);
        Forecast f = Forecaster.white(segment(10, 400, drift), D65, 0.004);
        double h = (-2 * 0.0005 * 3e-7 + Math.sqrt(4 * 0.0005 * 0.0005 * 9e-14 - 4 * 25e-14 * (25e-8 - 16e-6)))
                / (2 * 25e-14);
        assertThat(((Forecast.Crossing) f).expectedHours().orElseThrow()).isCloseTo(h, within(1.0));
    }

    @Test
    void aWhiteThatOnlyScattersIsFlatInNineOfTenCasesOrMore() {
        Random random = new Random(3);
        int flat = 0;
        for (int i = 0; i < 300; i++) {
            Segment<UV1976> still = segment(
                    12,
                    300,
                    h -> new UV1976(D65.u() + 2e-4 * random.nextGaussian(), D65.v() + 2e-4 * random.nextGaussian()));
            flat += Forecaster.white(still, D65, 0.004) instanceof Forecast.Flat ? 1 : 0;
        }
        assertThat(flat).as("of 300 whites that stand still, flat").isGreaterThan(260);
    }

    @Test
    void aLuminanceOfNothingIsRefused() {
        assertThatThrownBy(() -> Forecaster.luminance(luminance(6, 10, h -> 0), 100))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("luminance in cd/m2");
    }

    private static Forecast.Crossing crossing(Segment<Double> segment, double limit) {
        Forecast forecast = Forecaster.luminance(segment, limit);
        assertThat(forecast).isInstanceOf(Forecast.Crossing.class);
        return (Forecast.Crossing) forecast;
    }

    private static Segment<Double> luminance(int n, double everyHours, DoubleUnaryOperator luminance) {
        return segment(n, everyHours, luminance::applyAsDouble);
    }

    private static <T> Segment<T> segment(int n, double everyHours, DoubleFunction<T> figure) {
        List<SeriesPoint<T>> points = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            points.add(new SeriesPoint<>(
                    i * everyHours, Instant.EPOCH.plusSeconds(86_400L * i), figure.apply(i * everyHours), "b", "p"));
        }
        return new Segment<>(Series.Start.FIRST, points);
    }
}
