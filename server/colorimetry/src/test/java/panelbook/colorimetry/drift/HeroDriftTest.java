package panelbook.colorimetry.drift;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;

class HeroDriftTest {
    private static final CodeValues CODES = new CodeValues(SignalRange.FULL, 10);
    private static final UV1976 D65 = Chromaticity.D65.toUV1976();

    /** A display whose greys all have one chromaticity and follow gamma 2.4 to a peak. */
    private record Shown(double du, double dv, double peak) {
        Shown moved(double byU, double byV, double factor) {
            return new Shown(du + byU, dv + byV, peak * factor);
        }

        MeasuredRun run(String source, CodeValues codes, double... signals) {
            List<Reading> readings = new ArrayList<>();
            for (double signal : signals) {
                double luminance = peak * Math.pow(signal, 2.4);
                readings.add(new Reading(
                        Patch.grey(codes.toCode(signal)), XYZ.of(new UV1976(D65.u() + du, D65.v() + dv), luminance)));
            }
            InstrumentUncertainty u = new InstrumentUncertainty(0.02, 0.002, 0.002, 0.0002, 0.0005, source);
            return new MeasuredRun(Readings.of(codes, readings), u);
        }

        MeasuredRun run(String source) {
            return run(source, CODES, 0, 0.25, 0.5, 0.75, 1);
        }
    }

    private static final Shown FOLLOWER = new Shown(0.006, -0.004, 97);
    private static final Shown HERO = new Shown(0, 0, 100);

    private static HeroDrift drift(Shown followerNow, Shown heroNow) {
        return HeroDrift.of(FOLLOWER.run("m/lcd"), HERO.run("m/oled"), followerNow.run("m/lcd"), heroNow.run("m/oled"));
    }

    @Test
    void aLargeAgreedOffsetLeavesNoResidual() {
        HeroDrift drift = drift(FOLLOWER, HERO);
        ChromaticityResidual white = drift.white().orElseThrow();
        assertThat(white.agreed().u().value()).isCloseTo(0.006, within(1e-12));
        assertThat(white.agreed().v().value()).isCloseTo(-0.004, within(1e-12));
        assertThat(white.residual().distance().value()).isCloseTo(0, within(1e-12));
        LuminanceResidual luminance = drift.luminance().orElseThrow();
        assertThat(luminance.agreed().value()).isCloseTo(Math.log(0.97), within(1e-12));
        assertThat(luminance.residual().value()).isCloseTo(0, within(1e-12));
        assertThat(white.attribution().mover()).isEqualTo(Mover.NEITHER);
        assertThat(luminance.attribution().mover()).isEqualTo(Mover.NEITHER);
    }

    @Test
    void aFollowerThatMovedIsNamedWithAllOfTheResidual() {
        HeroDrift drift = drift(FOLLOWER.moved(0.003, 0.001, 0.95), HERO);
        ChromaticityResidual white = drift.white().orElseThrow();
        assertThat(white.residual().u().value()).isCloseTo(0.003, within(1e-12));
        assertThat(white.residual().v().value()).isCloseTo(0.001, within(1e-12));
        assertThat(white.attribution().followerShare().orElseThrow()).isCloseTo(1, within(1e-9));
        assertThat(white.attribution().mover()).isEqualTo(Mover.FOLLOWER);
        LuminanceResidual luminance = drift.luminance().orElseThrow();
        assertThat(luminance.residualPercent().value()).isCloseTo(-5, within(1e-9));
        assertThat(luminance.attribution().mover()).isEqualTo(Mover.FOLLOWER);
    }

    @Test
    void aHeroThatMovedIsNamedWithAllOfTheResidual() {
        HeroDrift drift = drift(FOLLOWER, HERO.moved(0.003, 0.001, 1.1));
        ChromaticityResidual white = drift.white().orElseThrow();
        assertThat(white.residual().u().value()).isCloseTo(-0.003, within(1e-12));
        assertThat(white.attribution().heroShare().orElseThrow()).isCloseTo(1, within(1e-9));
        assertThat(white.attribution().mover()).isEqualTo(Mover.HERO);
        assertThat(drift.luminance().orElseThrow().attribution().mover()).isEqualTo(Mover.HERO);
    }

    @Test
    void whenBothMovedApartEachCarriesItsShare() {
        ChromaticityResidual white = drift(FOLLOWER.moved(0.003, 0, 1), HERO.moved(-0.001, 0, 1))
                .white()
                .orElseThrow();
        assertThat(white.attribution().followerShare().orElseThrow()).isCloseTo(0.75, within(1e-9));
        assertThat(white.attribution().heroShare().orElseThrow()).isCloseTo(0.25, within(1e-9));
        assertThat(drift(FOLLOWER.moved(0.003, 0, 1), HERO.moved(-0.002, 0, 1))
                        .white()
                        .orElseThrow()
                        .attribution()
                        .mover())
                .isEqualTo(Mover.BOTH);
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 100);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void bothMovingAlikeLeavesNoResidualAndIsSaid(long seed) {
        Random random = new Random(seed);
        double du = 0.004 + 0.01 * random.nextDouble();
        double dv = 0.01 * random.nextDouble();
        double factor = 0.7 + 0.2 * random.nextDouble();
        HeroDrift drift = drift(FOLLOWER.moved(du, dv, factor), HERO.moved(du, dv, factor));
        assertThat(drift.white().orElseThrow().residual().distance().value()).isCloseTo(0, within(1e-12));
        assertThat(drift.luminance().orElseThrow().residual().value()).isCloseTo(0, within(1e-12));
        assertThat(drift.white().orElseThrow().attribution().mover()).isEqualTo(Mover.BOTH);
        assertThat(drift.luminance().orElseThrow().attribution().mover()).isEqualTo(Mover.BOTH);
        assertThat(drift.greys()).hasSize(3).allSatisfy(grey -> {
            assertThat(grey.luminance().residual().value()).isCloseTo(0, within(1e-12));
            assertThat(grey.chromaticity().residual().distance().value()).isCloseTo(0, within(1e-12));
        });
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void sharesSumToOneAndTheResidualIsTheDifferenceOfTheMovements(long seed) {
        Random random = new Random(seed);
        HeroDrift drift = drift(
                FOLLOWER.moved(0.01 * random.nextGaussian(), 0.01 * random.nextGaussian(), 0.5 + random.nextDouble()),
                HERO.moved(0.01 * random.nextGaussian(), 0.01 * random.nextGaussian(), 0.5 + random.nextDouble()));
        ChromaticityResidual white = drift.white().orElseThrow();
        LuminanceResidual luminance = drift.luminance().orElseThrow();
        assertThat(sum(white.attribution())).isCloseTo(1, within(1e-9));
        assertThat(sum(luminance.attribution())).isCloseTo(1, within(1e-9));
        assertThat(white.residual().u().value())
                .isCloseTo(
                        white.followerMovement().u().value()
                                - white.heroMovement().u().value(),
                        within(1e-12));
        assertThat(luminance.residual().value())
                .isCloseTo(
                        luminance.followerMovement().value()
                                - luminance.heroMovement().value(),
                        within(1e-12));
        assertThat(white.residual().v().value())
                .isCloseTo(white.now().v().value() - white.agreed().v().value(), within(1e-12));
    }

    private static double sum(Attribution a) {
        return a.followerShare().orElseThrow() + a.heroShare().orElseThrow();
    }

    @Test
    void oneMeterForLikeSpectraOverTimeLeavesOnlyItsRepeatability() {
        Estimate residual = drift(FOLLOWER, HERO).luminance().orElseThrow().residual();
        assertThat(residual.standardUncertainty()).isCloseTo(2 * 0.002, within(1e-6));
    }

    @Test
    void aNewMeterPutsItsErrorBackForEachKindOfPanel() {
        HeroDrift unlike =
                HeroDrift.of(FOLLOWER.run("m/lcd"), HERO.run("m/oled"), FOLLOWER.run("n/lcd"), HERO.run("n/oled"));
        assertThat(unlike.luminance().orElseThrow().residual().standardUncertainty())
                .isCloseTo(2 * 0.02, within(1e-6));
        HeroDrift alike =
                HeroDrift.of(FOLLOWER.run("m/lcd"), HERO.run("m/lcd"), FOLLOWER.run("n/lcd"), HERO.run("n/lcd"));
        assertThat(alike.luminance().orElseThrow().residual().standardUncertainty())
                .isCloseTo(2 * 0.002, within(1e-6));
    }

    @Test
    void greysAreMatchedBySignalWhenTheRangesDiffer() {
        CodeValues narrow = new CodeValues(SignalRange.NARROW, 12);
        HeroDrift drift = HeroDrift.of(
                FOLLOWER.run("a"),
                HERO.run("b", narrow, 0, 0.25, 0.5, 0.75, 1),
                FOLLOWER.moved(0, 0, 0.9).run("a"),
                HERO.run("b", narrow, 0, 0.5, 1));
        assertThat(drift.luminance().orElseThrow().residualPercent().value()).isCloseTo(-10, within(1e-9));
        assertThat(drift.greys()).singleElement().satisfies(grey -> {
            assertThat(grey.signal()).isCloseTo(0.5, within(1e-3));
            assertThat(grey.luminance().residualPercent().value()).isCloseTo(-10, within(1e-9));
        });
    }

    @Test
    void aLevelThatOneOfTheTwoCannotReachIsLeftOut() {
        MeasuredRun clipped = clippedAt(60);
        HeroDrift drift = HeroDrift.of(clipped, HERO.run("h"), clipped, HERO.run("h"));
        assertThat(drift.greys()).extracting(GreyResidual::signal).hasSize(2).allMatch(signal -> signal < 0.6);
        assertThat(AgreedOffset.of(clipped, HERO.run("h")).greys()).hasSize(2);
    }

    private static MeasuredRun clippedAt(double peak) {
        MeasuredRun free = new Shown(0, 0, 140).run("f");
        List<Reading> clipped = free.readings().all().stream()
                .map(r -> new Reading(r.patch(), r.xyz().times(Math.min(1, peak / Math.max(r.luminance(), 1e-9)))))
                .toList();
        return new MeasuredRun(Readings.of(CODES, clipped), free.uncertainty());
    }

    @Test
    void withoutWhiteThereIsNoResidualOfWhite() {
        MeasuredRun greysOnly = FOLLOWER.run("a", CODES, 0.25, 0.5);
        HeroDrift drift = HeroDrift.of(greysOnly, HERO.run("b"), FOLLOWER.run("a"), HERO.run("b"));
        assertThat(drift.white()).isEmpty();
        assertThat(drift.luminance()).isEmpty();
        assertThat(drift.greys()).hasSize(2);
        assertThat(AgreedOffset.of(greysOnly, HERO.run("b")).white()).isEmpty();
    }
}
