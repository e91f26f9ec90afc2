package panelbook.colorimetry.drift;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Ageing;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;

class OwnDriftTest {
    private static final CodeValues CODES = new CodeValues(SignalRange.FULL, 10);
    private static final Target SDR =
            new Target(RgbSpace.BT_709, new Eotf.Bt1886(), CODES, new LuminanceRange(0.05, 100));
    private static final UV1976 D65 = Chromaticity.D65.toUV1976();

    private static InstrumentUncertainty meter(String source) {
        return new InstrumentUncertainty(0.02, 0.003, 0.002, 0.0002, 0.001, source);
    }

    private static MeasuredRun run(String source, Reading... readings) {
        return new MeasuredRun(Readings.of(CODES, List.of(readings)), meter(source));
    }

    private static Reading white(double du, double dv, double luminance) {
        return new Reading(Patch.grey(1023), XYZ.of(new UV1976(D65.u() + du, D65.v() + dv), luminance));
    }

    private static Reading black(double luminance) {
        return new Reading(Patch.grey(0), XYZ.of(D65, luminance));
    }

    @Test
    void everyFigureIsNowAgainstThen() {
        OwnDrift drift =
                OwnDrift.of(run("a", white(0, 0, 100), black(0.05)), run("a", white(0.003, -0.004, 90), black(0.06)));
        assertThat(drift.peakLuminancePercent().orElseThrow().value()).isCloseTo(-10, within(1e-9));
        UvShift shift = drift.white().orElseThrow();
        assertThat(shift.u().value()).isCloseTo(0.003, within(1e-12));
        assertThat(shift.v().value()).isCloseTo(-0.004, within(1e-12));
        assertThat(shift.distance().value()).isCloseTo(0.005, within(1e-12));
        assertThat(drift.black().orElseThrow().value()).isCloseTo(0.01, within(1e-12));
        assertThat(drift.contrastPercent().orElseThrow().value()).isCloseTo(-25, within(1e-9));
        PatchDrift largest = drift.largest().orElseThrow();
        assertThat(largest.patch()).isEqualTo(Patch.grey(1023));
        assertThat(largest.deltaEItp().value())
                .isCloseTo(
                        ColourDifference.itp(
                                white(0, 0, 100).xyz(), white(0.003, -0.004, 90).xyz()),
                        within(1e-9));
        assertThat(drift.gaps()).isEmpty();
    }

    @Test
    void oneMeterCarriesItsRepeatabilityTwoMetersTheirFullUncertainty() {
        MeasuredRun then = run("a", white(0, 0, 100), black(0.05));
        OwnDrift same = OwnDrift.of(then, run("a", white(0, 0, 100), black(0.05)));
        OwnDrift other = OwnDrift.of(then, run("b", white(0, 0, 100), black(0.05)));
        assertThat(same.peakLuminancePercent().orElseThrow().standardUncertainty())
                .isCloseTo(Math.sqrt(2) * 0.3, within(1e-3));
        assertThat(other.peakLuminancePercent().orElseThrow().standardUncertainty())
                .isCloseTo(Math.sqrt(2) * 2, within(1e-3));
        assertThat(same.white().orElseThrow().u().standardUncertainty())
                .isCloseTo(Math.sqrt(2) * 0.0002, within(1e-12));
        assertThat(other.white().orElseThrow().u().standardUncertainty())
                .isCloseTo(Math.sqrt(2) * 0.002, within(1e-12));
        // black: floor 0.001 in each reading, and the relative part of 0.05 on top
        assertThat(same.black().orElseThrow().standardUncertainty())
                .isCloseTo(Math.sqrt(2) * Math.hypot(0.001, 0.003 * 0.05), within(1e-9));
    }

    @Test
    void whatIsMissingIsAbsentAndSaid() {
        OwnDrift nothing = OwnDrift.of(run("a"), run("a"));
        assertThat(nothing.white()).isEmpty();
        assertThat(nothing.gaps())
                .containsExactlyInAnyOrder(
                        OwnDrift.Gap.WHITE_NOT_MEASURED, OwnDrift.Gap.BLACK_NOT_MEASURED, OwnDrift.Gap.NO_COMMON_PATCH);
        OwnDrift dark = OwnDrift.of(
                run("a", white(0, 0, 100), black(0.0004)),
                run("a", white(0, 0, 100), new Reading(Patch.grey(0), XYZ.BLACK)));
        assertThat(dark.contrastPercent()).isEmpty();
        assertThat(dark.black().orElseThrow().value()).isCloseTo(-0.0004, within(1e-12));
        assertThat(dark.gaps()).containsExactly(OwnDrift.Gap.BLACK_NOT_ABOVE_FLOOR);
    }

    @Test
    void aRunAgainstItselfHasNotMoved() {
        MeasuredRun run = run("a", white(0.001, 0.001, 93), black(0.05));
        OwnDrift drift = OwnDrift.of(run, run);
        assertThat(drift.peakLuminancePercent().orElseThrow().value()).isZero();
        assertThat(drift.white().orElseThrow().distance().value()).isZero();
        assertThat(drift.largest().orElseThrow().deltaEItp().value()).isZero();
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 25);
    }

    /** The stretched exponential of the simulated panel is known, so the drift measured with noise must lie around it. */
    @ParameterizedTest
    @MethodSource("seeds")
    void theAgeingOfAPanelIsFoundWithinItsUncertainty(long seed) {
        Ageing ageing = new Ageing(30000, 0.8);
        SimulatedDisplay display = SimulatedDisplay.builder(Primaries.lcd())
                .leak(0.05)
                .ageing(ageing, ageing, ageing)
                .calibratedAt(200)
                .build();
        Random random = new Random(seed);
        MeasuredRun then = measured(display, 200, random);
        MeasuredRun now = measured(display, 1800, random);
        double left = ageing.remaining(1800) / ageing.remaining(200);
        double truth = 100 * ((100 - 0.05) * left + 0.05 - 100) / 100;
        OwnDrift drift = OwnDrift.of(then, now);
        Estimate peak = drift.peakLuminancePercent().orElseThrow();
        assertThat(peak.value()).isCloseTo(truth, within(4 * peak.standardUncertainty()));
        Estimate white = drift.white().orElseThrow().distance();
        assertThat(white.value()).isLessThan(4 * white.standardUncertainty());
    }

    private static MeasuredRun measured(SimulatedDisplay display, double hours, Random random) {
        List<Reading> readings = display.measure(SDR, Patches.check(CODES, 10), hours, Instrument.COLORIMETER, random);
        return new MeasuredRun(Readings.of(CODES, readings), Instrument.COLORIMETER.uncertainty("a"));
    }
}
