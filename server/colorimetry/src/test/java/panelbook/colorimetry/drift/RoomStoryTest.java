package panelbook.colorimetry.drift;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Ageing;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.colorimetry.uncertainty.Conformance;
import panelbook.colorimetry.uncertainty.Decision;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.Limits;

/**
 * A room with an emissive hero and two liquid-crystal followers, matched by eye with a white that measures far apart, and
 * checked with one meter. Limits are invented: 0.002 in u'v'.
 */
class RoomStoryTest {
    private static final CodeValues CODES = new CodeValues(SignalRange.NARROW, 10);
    private static final Target SDR =
            new Target(RgbSpace.BT_709, new Eotf.Bt1886(), CODES, new LuminanceRange(0.05, 100));
    private static final Limits LIMIT = Limits.atMost(0.002);

    private final SimulatedDisplay hero =
            SimulatedDisplay.builder(Primaries.emissive()).leak(0.001).build();
    private final SimulatedDisplay matched = SimulatedDisplay.builder(Primaries.lcd())
            .leak(0.05)
            .whiteError(-0.006, -0.011)
            .build();

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 25);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aWellMatchedFollowerIsWithinAlthoughItMeasuresFarApart(long seed) {
        ChromaticityResidual white = later(matched, hero, seed);
        assertThat(white.now().distance().value()).isGreaterThan(0.005);
        assertThat(decide(white)).isEqualTo(Decision.WITHIN);
        assertThat(white.attribution().mover()).isNotEqualTo(Mover.BOTH);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aFollowerWhoseBlueWasTurnedIsBeyondAndNamed(long seed) {
        ChromaticityResidual white = later(matched.toBuilder().gains(1, 1, 0.93).build(), hero, seed);
        assertThat(decide(white)).isEqualTo(Decision.BEYOND);
        assertThat(white.attribution().mover()).isEqualTo(Mover.FOLLOWER);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aHeroWhoseBlueAgedIsBeyondAndNamed(long seed) {
        SimulatedDisplay ageing = hero.toBuilder()
                .ageing(new Ageing(200000, 0.8), new Ageing(200000, 0.8), new Ageing(20000, 0.8))
                .build();
        ChromaticityResidual white = later(matched, ageing, seed);
        assertThat(decide(white)).isEqualTo(Decision.BEYOND);
        assertThat(white.attribution().mover()).isEqualTo(Mover.HERO);
        assertThat(white.attribution().heroShare().orElseThrow()).isBetween(0.8, 1.2);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void anotherMeterLeavesItUndecidedRatherThanRaisingAnAlarm(long seed) {
        Random random = new Random(seed);
        HeroDrift drift = HeroDrift.of(
                run(matched, Instrument.COLORIMETER, "first", 0, random),
                run(hero, Instrument.COLORIMETER, "first", 0, random),
                run(matched, Instrument.SPECTRORADIOMETER, "second", 1000, random),
                run(hero, Instrument.SPECTRORADIOMETER, "second", 1000, random));
        assertThat(decide(drift.white().orElseThrow())).isEqualTo(Decision.UNDECIDED);
    }

    private ChromaticityResidual later(SimulatedDisplay followerLater, SimulatedDisplay heroLater, long seed) {
        Random random = new Random(seed);
        Instrument meter = Instrument.COLORIMETER;
        return HeroDrift.of(
                        run(matched, meter, "meter", 0, random),
                        run(hero, meter, "meter", 0, random),
                        run(followerLater, meter, "meter", 1000, random),
                        run(heroLater, meter, "meter", 1000, random))
                .white()
                .orElseThrow();
    }

    private static Decision decide(ChromaticityResidual white) {
        Estimate residual = white.residual().distance();
        return Conformance.decide(residual, LIMIT);
    }

    private static MeasuredRun run(
            SimulatedDisplay display, Instrument meter, String name, double hours, Random random) {
        List<Reading> readings = display.measure(SDR, Patches.check(CODES, 10), hours, meter, random);
        return new MeasuredRun(Readings.of(CODES, readings), meter.uncertainty(name + " on " + display.technology()));
    }
}
