package panelbook.colorimetry.verification;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.Cct;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.St2084;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.ExpectedColours;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Patches;

class VerificationTest {
    private static final CodeValues FULL_10 = new CodeValues(SignalRange.FULL, 10);
    private static final LuminanceRange SDR = new LuminanceRange(0.05, 100);
    private static final Target BT_1886 = new Target(RgbSpace.BT_709, new Eotf.Bt1886(), FULL_10, SDR);
    private static final Target PQ =
            new Target(RgbSpace.P3_D65, new Eotf.Pq(), FULL_10, new LuminanceRange(0.005, 1000));

    static Stream<Target> targets() {
        CodeValues narrow12 = new CodeValues(SignalRange.NARROW, 12);
        CodeValues full16 = new CodeValues(SignalRange.FULL, 16);
        return Stream.of(
                BT_1886,
                PQ,
                new Target(RgbSpace.BT_2020, Eotf.Hlg.forPeak(1000), narrow12, new LuminanceRange(0.005, 1000)),
                new Target(RgbSpace.P3_DCI, new Eotf.Power(2.6), full16, new LuminanceRange(0.02, 48)));
    }

    @ParameterizedTest
    @MethodSource("targets")
    void aDisplayThatDoesAsAskedHasNoErrorAtAll(Target target) {
        Verification v =
                Verification.of(target, ideal(target, target.aims(), Patches.many(target.codes(), 300, new Random(5))));
        assertThat(v.deltaEItp().orElseThrow().maximum()).isCloseTo(0, within(1e-5));
        assertThat(v.deltaE2000().orElseThrow().maximum()).isCloseTo(0, within(1e-5));
        assertThat(v.deltaUv().orElseThrow().maximum()).isCloseTo(0, within(1e-5));
        assertThat(v.luminanceErrorPercent().orElseThrow().maximum()).isCloseTo(0, within(1e-5));
        assertThat(v.greyTracking().orElseThrow().luminanceErrorPercent().value())
                .isCloseTo(0, within(1e-5));
        assertThat(v.whiteLuminanceErrorPercent().orElseThrow()).isCloseTo(0, within(1e-5));
        assertThat(v.whiteDeltaUv().orElseThrow()).isCloseTo(0, within(1e-9));
        assertThat(v.contrast().orElseThrow())
                .isCloseTo(target.aims().white() / target.aims().black(), within(1e-2));
        assertThat(v.gamutCoverage().orElseThrow()).isGreaterThan(0.9);
        assertThat(v.remarks()).isEmpty();
    }

    /** BT.1886 Annex 1 and RP 177 put together by hand: red at code 512 of a display with 100 and 0 cd/m2. */
    @Test
    void theExpectedColourIsMatrixTimesLight() {
        XYZ expected = BT_1886.on(new LuminanceRange(0, 100)).of(new Patch(512, 0, 0));
        double light = 100 * Math.pow(512 / 1023.0, 2.4);
        assertThat(expected.y()).isCloseTo(0.21263900587 * light, within(1e-8));
        assertThat(expected.chromaticity().orElseThrow().x()).isCloseTo(0.64, within(1e-12));
        assertThat(expected.chromaticity().orElseThrow().y()).isCloseTo(0.33, within(1e-12));
    }

    @Test
    void aRelativeTargetIsNotBlamedTwiceForADimWhite() {
        LuminanceRange dim = new LuminanceRange(0.05, 90);
        Verification v = Verification.of(BT_1886, ideal(BT_1886, dim, Patches.check(FULL_10, 20)));
        assertThat(v.luminance().white()).isCloseTo(90, within(1e-9));
        assertThat(v.luminanceErrorPercent().orElseThrow().maximum()).isCloseTo(0, within(1e-9));
        assertThat(v.whiteLuminanceErrorPercent().orElseThrow()).isCloseTo(-10, within(1e-9));
    }

    @Test
    void pqStaysAbsoluteBelowAPeakThatIsTooLow() {
        LuminanceRange weak = new LuminanceRange(0.005, 600);
        List<Reading> readings = ideal(PQ, weak, Patches.check(FULL_10, 20));
        Verification v = Verification.of(PQ, readings);
        assertThat(v.deltaEItp().orElseThrow().maximum()).isCloseTo(0, within(1e-5));
        PatchVerification grey = patch(v, Patch.grey(FULL_10.toCode(0.5)));
        assertThat(grey.expected().y()).isCloseTo(St2084.luminance(512 / 1023.0), within(1e-9));
        assertThat(v.whiteLuminanceErrorPercent().orElseThrow()).isCloseTo(-40, within(1e-5));
    }

    @Test
    void aBrighterMidtoneShowsInEveryFigureAndNamesItsPatch() {
        Patch off = Patch.grey(FULL_10.toCode(0.5));
        List<Reading> readings = new ArrayList<>(ideal(BT_1886, SDR, Patches.check(FULL_10, 20)));
        readings.replaceAll(
                r -> r.patch().equals(off) ? new Reading(off, r.xyz().times(1.05)) : r);
        Verification v = Verification.of(BT_1886, readings);
        assertThat(v.luminanceErrorPercent().orElseThrow().maximum()).isCloseTo(5, within(1e-9));
        assertThat(v.deltaEItp().orElseThrow().worst()).isEqualTo(off);
        assertThat(v.deltaE2000().orElseThrow().worst()).isEqualTo(off);
        GreyTracking greys = v.greyTracking().orElseThrow();
        assertThat(greys.luminanceErrorPercent().patch()).isEqualTo(off);
        assertThat(greys.luminanceErrorPercent().value()).isCloseTo(5, within(1e-9));
        assertThat(greys.deltaUv().orElseThrow().value()).isCloseTo(0, within(1e-12));
    }

    @Test
    void theWhiteIsNamedByTemperatureAndDistance() {
        Reading white = new Reading(Patch.grey(1023), XYZ.of(Chromaticity.D65, 100));
        Cct cct = Verification.of(BT_1886, List.of(white)).whiteCct().orElseThrow();
        assertThat(cct.kelvin().orElseThrow()).isCloseTo(6504.3, within(0.1));
        Reading green = new Reading(Patch.grey(1023), XYZ.of(RgbSpace.BT_709.green(), 100));
        assertThat(Verification.of(BT_1886, List.of(green)).whiteCct()).contains(Cct.OutOfRange.TOO_FAR_FROM_LOCUS);
    }

    /** Areas by the shoelace formula: BT.709 lies inside BT.2020 and fills its share of the u'v' triangle. */
    @Test
    void coverageOfAWiderTargetIsTheRatioOfTheTriangles() {
        Target wide = new Target(RgbSpace.BT_2020, new Eotf.Bt1886(), FULL_10, new LuminanceRange(0, 100));
        Target narrow = new Target(RgbSpace.BT_709, new Eotf.Bt1886(), FULL_10, new LuminanceRange(0, 100));
        List<Reading> readings = ideal(narrow, narrow.aims(), Patches.check(FULL_10, 4));
        assertThat(Verification.of(wide, readings).gamutCoverage().orElseThrow())
                .isCloseTo(area(RgbSpace.BT_709) / area(RgbSpace.BT_2020), within(1e-9));
        List<Reading> wideReadings = ideal(wide, wide.aims(), Patches.check(FULL_10, 4));
        assertThat(Verification.of(narrow, wideReadings).gamutCoverage().orElseThrow())
                .isCloseTo(1, within(1e-9));
    }

    @Test
    void anEmptyRunHasNoFiguresAndSaysWhy() {
        Verification v = Verification.of(BT_1886, List.of());
        assertThat(v.deltaEItp()).isEmpty();
        assertThat(v.greyTracking()).isEmpty();
        assertThat(v.contrast()).isEmpty();
        assertThat(v.whiteCct()).isEmpty();
        assertThat(v.luminance()).isEqualTo(SDR);
        assertThat(v.remarks())
                .containsExactlyInAnyOrder(
                        Remark.WHITE_NOT_MEASURED,
                        Remark.BLACK_NOT_MEASURED,
                        Remark.PRIMARIES_NOT_MEASURED,
                        Remark.GREYS_NOT_MEASURED);
    }

    @Test
    void aBlackOfZeroHasNoContrastAndNoRelativeError() {
        Reading white = new Reading(Patch.grey(1023), XYZ.of(Chromaticity.D65, 100));
        Reading black = new Reading(Patch.grey(0), XYZ.BLACK);
        Verification v = Verification.of(BT_1886, List.of(white, black));
        assertThat(v.contrast()).isEmpty();
        assertThat(v.remarks()).contains(Remark.BLACK_READS_ZERO);
        PatchVerification ofBlack = patch(v, Patch.grey(0));
        assertThat(ofBlack.luminanceErrorPercent()).isEmpty();
        assertThat(ofBlack.deltaUv()).isEmpty();
        assertThat(ofBlack.deltaEItp()).isZero();
    }

    @Test
    void aMeterThatLooksAtTheWallIsSaidSoAndStillAnswered() {
        Reading white = new Reading(Patch.grey(1023), XYZ.of(Chromaticity.D65, 0.2));
        Reading black = new Reading(Patch.grey(0), XYZ.of(Chromaticity.D65, 0.2));
        Verification v = Verification.of(BT_1886, List.of(white, black));
        assertThat(v.remarks()).contains(Remark.WHITE_NOT_ABOVE_BLACK);
        assertThat(v.luminance()).isEqualTo(SDR);
        assertThat(v.deltaEItp().orElseThrow().maximum()).isGreaterThan(100);
    }

    @Test
    void readingsInOtherCodeValuesThanTheTargetsAreRefused() {
        Readings other = Readings.of(new CodeValues(SignalRange.NARROW, 10), List.of());
        assertThatThrownBy(() -> Verification.of(BT_1886, other, 1))
                .hasMessage("the readings are in 10-bit narrow range, but the target asks for 10-bit full range");
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 50);
    }

    /** Hyndman and Fan 1996, definition 1, by its words: the least value that at least 95 % do not exceed. */
    @ParameterizedTest
    @MethodSource("seeds")
    void thePercentileIsAValueThatNinetyFivePercentDoNotExceed(long seed) {
        Random random = new Random(seed);
        List<Reading> readings = new ArrayList<>();
        int count = 1 + random.nextInt(100);
        for (int i = 0; i < count; i++) {
            readings.add(new Reading(Patch.grey(100 + i), XYZ.of(Chromaticity.D65, 100 * random.nextDouble())));
        }
        Verification v = Verification.of(BT_1886, readings);
        double[] values =
                v.patches().stream().mapToDouble(PatchVerification::deltaEItp).toArray();
        double p95 = v.deltaEItp().orElseThrow().percentile95();
        assertThat(Arrays.stream(values).filter(x -> x <= p95).count() * 100).isGreaterThanOrEqualTo(95L * count);
        assertThat(Arrays.stream(values).filter(x -> x < p95).count() * 100).isLessThan(95L * count);
        assertThat(v.deltaEItp().orElseThrow().mean())
                .isCloseTo(Arrays.stream(values).average().orElseThrow(), within(1e-9));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theOrderOfTheReadingsChangesNothingButTheOrder(long seed) {
        List<Reading> readings = new ArrayList<>(ideal(PQ, new LuminanceRange(0.01, 700), Patches.check(FULL_10, 10)));
        readings.replaceAll(r ->
                new Reading(r.patch(), r.xyz().times(1 + r.patch().red() % 7 / 100.0)));
        Verification inOrder = Verification.of(PQ, readings);
        Collections.shuffle(readings, new Random(seed));
        Verification shuffled = Verification.of(PQ, readings);
        assertThat(shuffled.deltaE2000().orElseThrow().maximum())
                .isEqualTo(inOrder.deltaE2000().orElseThrow().maximum());
        assertThat(shuffled.deltaEItp().orElseThrow().percentile95())
                .isEqualTo(inOrder.deltaEItp().orElseThrow().percentile95());
        assertThat(shuffled.gamutCoverage()).isEqualTo(inOrder.gamutCoverage());
    }

    private static List<Reading> ideal(Target target, LuminanceRange range, List<Patch> patches) {
        ExpectedColours expected = target.on(range);
        return patches.stream().map(p -> new Reading(p, expected.of(p))).toList();
    }

    private static PatchVerification patch(Verification v, Patch patch) {
        return v.patches().stream()
                .filter(p -> p.patch().equals(patch))
                .findFirst()
                .orElseThrow();
    }

    private static double area(RgbSpace s) {
        double ru = s.red().toUV1976().u();
        double rv = s.red().toUV1976().v();
        double gu = s.green().toUV1976().u() - ru;
        double gv = s.green().toUV1976().v() - rv;
        double bu = s.blue().toUV1976().u() - ru;
        double bv = s.blue().toUV1976().v() - rv;
        return Math.abs(gu * bv - gv * bu) / 2;
    }
}
