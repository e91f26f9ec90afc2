package panelbook.colorimetry.simulation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.verification.Verification;

class SimulationTest {
    private static final CodeValues CODES = new CodeValues(SignalRange.NARROW, 10);
    private static final Target SDR =
            new Target(RgbSpace.BT_709, new Eotf.Bt1886(), CODES, new LuminanceRange(0.01, 100));

    /** Form: Féry et al., Appl. Phys. Lett. 87 (2005) 213502; numbers computed from it with invented parameters. */
    @ParameterizedTest
    @CsvSource({"20000, 0.7, 1000, 0.8844203656557817", "50000, 0.6, 10000, 0.683361834240339"})
    void ageingIsTheStretchedExponential(double tau, double beta, double hours, double left) {
        assertThat(new Ageing(tau, beta).remaining(hours)).isCloseTo(left, within(1e-12));
    }

    @Test
    void aPerfectDisplayUnderAPerfectMeterMeetsItsTarget() {
        SimulatedDisplay display =
                SimulatedDisplay.builder(Primaries.laser()).leak(0.01).build();
        Verification v = verify(display, SDR, 0, Instrument.PERFECT);
        assertThat(v.deltaEItp().orElseThrow().maximum()).isLessThan(0.01);
        assertThat(v.gamutCoverage().orElseThrow()).isGreaterThan(0.99);
    }

    @Test
    void theSameSeedGivesTheSameReadings() {
        SimulatedDisplay display =
                SimulatedDisplay.builder(Primaries.emissive()).build();
        List<Patch> patches = Patches.check(CODES, 10);
        assertThat(display.measure(SDR, patches, 10, Instrument.COLORIMETER, new Random(7)))
                .isEqualTo(display.measure(SDR, patches, 10, Instrument.COLORIMETER, new Random(7)));
    }

    @Test
    void anAgeingBluePullsTheWhiteToYellowAndDown() {
        SimulatedDisplay display = SimulatedDisplay.builder(Primaries.emissive())
                .ageing(new Ageing(80000, 0.8), new Ageing(80000, 0.8), new Ageing(30000, 0.7))
                .calibratedAt(500)
                .build();
        Reading fresh = white(display, 500);
        Reading aged = white(display, 3500);
        assertThat(aged.luminance()).isLessThan(fresh.luminance());
        assertThat(aged.xyz().uv1976().orElseThrow().v())
                .isGreaterThan(fresh.xyz().uv1976().orElseThrow().v());
    }

    @Test
    void aPanelBelowItsPqTargetRollsOffAndStaysBelowItsPeak() {
        Target hdr = new Target(RgbSpace.P3_D65, new Eotf.Pq(), CODES, new LuminanceRange(0.005, 1000));
        SimulatedDisplay display = SimulatedDisplay.builder(Primaries.emissive())
                .peak(600)
                .rollOffFrom(0.7)
                .leak(0.0005)
                .build();
        List<Reading> greys = display.measure(hdr, Patches.greys(CODES, 100), 0, Instrument.PERFECT, new Random(1));
        assertThat(greys).isSortedAccordingTo((a, b) -> Double.compare(a.luminance(), b.luminance()));
        assertThat(greys.get(100).luminance()).isBetween(590.0, 600.1);
        // 300 cd/m2 lies below the knee
        assertThat(greys.get(62).luminance())
                .isCloseTo(
                        hdr.eotf()
                                .on(hdr.aims())
                                .luminance(CODES.toSignal(greys.get(62).patch().red())),
                        within(0.5));
    }

    /** Filters that lie off err alike on like spectra and otherwise on others: why a meter is corrected per technology. */
    @Test
    void aMetersErrorBelongsToTheKindOfPanel() {
        SimulatedDisplay lcd = SimulatedDisplay.builder(Primaries.lcd()).build();
        SimulatedDisplay sameLcd =
                SimulatedDisplay.builder(Primaries.lcd()).peak(200).build();
        SimulatedDisplay laser = SimulatedDisplay.builder(Primaries.laser()).build();
        assertThat(Math.hypot(error(lcd, 0) - error(sameLcd, 0), error(lcd, 1) - error(sameLcd, 1)))
                .isLessThan(1e-5);
        assertThat(Math.hypot(error(lcd, 0) - error(laser, 0), error(lcd, 1) - error(laser, 1)))
                .isGreaterThan(3e-4);
    }

    private static double error(SimulatedDisplay display, int coordinate) {
        Instrument noiseless = new Instrument(0.25, 0, 0, 0, 0.015, 0.002);
        UV1976 truth = white(display, 0).xyz().uv1976().orElseThrow();
        List<Patch> whiteOnly = List.of(Patch.grey(CODES.white()));
        UV1976 read = display.measure(SDR, whiteOnly, 0, noiseless, new Random(1))
                .get(0)
                .xyz()
                .uv1976()
                .orElseThrow();
        return coordinate == 0 ? read.u() - truth.u() : read.v() - truth.v();
    }

    private static Reading white(SimulatedDisplay display, double hours) {
        return display.measure(SDR, List.of(Patch.grey(CODES.white())), hours, Instrument.PERFECT, new Random(1))
                .get(0);
    }

    private static Verification verify(SimulatedDisplay display, Target target, double hours, Instrument instrument) {
        return Verification.of(
                target, display.measure(target, Patches.check(CODES, 20), hours, instrument, new Random(1)));
    }
}
