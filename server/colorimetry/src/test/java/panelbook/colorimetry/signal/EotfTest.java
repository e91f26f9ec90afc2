package panelbook.colorimetry.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static panelbook.colorimetry.PublishedTable.number;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.PublishedTable;
import panelbook.colorimetry.St2084;

class EotfTest {
    private static final double TEN_DIGITS = 2e-9;

    /** SMPTE ST 2084:2014 / ITU-R BT.2100-2, Table 4. */
    @Test
    void pqGivesTheLuminanceOfTheStandard() {
        for (NamedCsvRecord row : PublishedTable.rows("pq_eotf.csv")) {
            double expected = number(row, "L_cd_m2");
            assertThat(St2084.luminance(number(row, "N")))
                    .as("PQ signal %s", row.getField("N"))
                    .isCloseTo(expected, within(TEN_DIGITS * expected));
        }
    }

    /** SMPTE ST 2084:2014 with code values by ITU-R BT.2100-2, Table 9. */
    @Test
    void pqAndItsTenBitCodesAreFoundFromLuminance() {
        CodeValues narrow = new CodeValues(SignalRange.NARROW, 10);
        CodeValues full = new CodeValues(SignalRange.FULL, 10);
        for (NamedCsvRecord row : PublishedTable.rows("pq_inverse.csv")) {
            double signal = St2084.signal(number(row, "L_cd_m2"));
            String at = row.getField("L_cd_m2") + " cd/m2";
            assertThat(signal).as(at).isCloseTo(number(row, "N"), within(1e-9));
            assertThat(narrow.toCode(signal)).as(at).isEqualTo((int) number(row, "code10_narrow"));
            assertThat(full.toCode(signal)).as(at).isEqualTo((int) number(row, "code10_full"));
        }
    }

    /** ITU-R BT.2408, Table 1: reference levels in PQ and HLG, in per cent rounded to whole numbers. */
    @ParameterizedTest(name = "{0} cd/m2 is {1} % PQ and {2} % HLG")
    @CsvSource({"26, 38, 38", "203, 58, 75"})
    void referenceLevelsOfBt2408AreMet(double luminance, long pqPercent, long hlgPercent) {
        LuminanceRange range = new LuminanceRange(0, 1000);
        assertThat(Math.round(100 * new Eotf.Pq().on(range).signal(luminance))).isEqualTo(pqPercent);
        assertThat(Math.round(100 * Eotf.Hlg.forPeak(1000).on(range).signal(luminance)))
                .isEqualTo(hlgPercent);
    }

    /** ITU-R BT.2100-2, Table 5; at 4000 cd/m2 with the extended gamma of BT.2390. */
    @ParameterizedTest
    @CsvSource({"400, L_400", "600, L_600", "1000, L_1000", "2000, L_2000", "4000, L_4000_extended"})
    void hlgGreysFollowTheRecommendation(double peak, String column) {
        DisplayEotf hlg = Eotf.Hlg.forPeak(peak).on(new LuminanceRange(0, peak));
        for (NamedCsvRecord row : PublishedTable.rows("hlg_eotf.csv")) {
            double signal = number(row, "V");
            double expected = number(row, column);
            assertThat(Eotf.Hlg.inverseOetf(signal)).isCloseTo(number(row, "E_scene"), within(1e-9));
            assertThat(hlg.luminance(signal)).as("signal %s", signal).isCloseTo(expected, within(5e-9 * expected));
        }
    }

    /** BT.2100-2, Table 5 note 5f, from 400 to 2000 cd/m2; BT.2390 outside. */
    @Test
    void hlgSystemGammaFollowsItsPeak() {
        for (NamedCsvRecord row : PublishedTable.rows("hlg_system_gamma.csv")) {
            double peak = number(row, "Lw_cd_m2");
            String column = peak >= 400 && peak <= 2000 ? "gamma_log" : "gamma_extended";
            assertThat(Eotf.Hlg.systemGamma(peak)).as("%s cd/m2", peak).isCloseTo(number(row, column), within(1e-8));
        }
    }

    /** BT.2100-2, Table 5, by hand: FD = Lw YS^(gamma - 1) E with YS = 0.2627 R + 0.6780 G + 0.0593 B. */
    @Test
    void hlgColoursShareTheLuminanceOfTheScene() {
        double[] light = new Eotf.Hlg(1.2).on(new LuminanceRange(0, 1000)).light(0.5, 0, 0);
        double expected = 1000 * Math.pow(0.2627 / 12, 0.2) / 12;
        assertThat(light[0]).isCloseTo(expected, within(1e-9));
        assertThat(light[1]).isZero();
        assertThat(light[2]).isZero();
    }

    /** BT.2100-2, Table 5: beta is made so that signal 0 shows Lb and signal 1 shows Lw. */
    @Test
    void hlgBlackLiftShowsTheBlackOfTheDisplay() {
        DisplayEotf hlg = Eotf.Hlg.forPeak(1000).on(new LuminanceRange(0.05, 1000));
        assertThat(hlg.luminance(0)).isCloseTo(0.05, within(1e-12));
        assertThat(hlg.luminance(1)).isCloseTo(1000, within(1e-4));
    }

    /** ITU-R BT.1886 (2011), Annex 1. */
    @Test
    void bt1886GivesTheLuminanceOfTheRecommendation() {
        for (NamedCsvRecord row : PublishedTable.rows("bt1886_eotf.csv")) {
            LuminanceRange range = new LuminanceRange(number(row, "Lb_cd_m2"), number(row, "Lw_cd_m2"));
            double expected = number(row, "L_cd_m2");
            assertThat(new Eotf.Bt1886().on(range).luminance(number(row, "V")))
                    .as("%s, signal %s", range, row.getField("V"))
                    .isCloseTo(expected, within(TEN_DIGITS * expected + 1e-15));
        }
    }

    /** SMPTE RP 431-2:2011: 48 cd/m2 and gamma 2.6. */
    @Test
    void powerIsThatOfTheCinemaWithoutBlack() {
        DisplayEotf cinema = new Eotf.Power(2.6).on(new LuminanceRange(0, 48));
        assertThat(cinema.luminance(0.5)).isCloseTo(48 * Math.pow(0.5, 2.6), within(1e-12));
    }

    @Test
    void pqIsClippedToWhatTheDisplayCanShow() {
        DisplayEotf pq = new Eotf.Pq().on(new LuminanceRange(0.01, 600));
        assertThat(pq.luminance(0)).isEqualTo(0.01);
        assertThat(pq.luminance(1)).isEqualTo(600);
        assertThat(pq.luminance(0.5)).isEqualTo(St2084.luminance(0.5));
    }

    static Stream<Arguments> everyEotf() {
        List<Eotf> eotfs = List.of(
                new Eotf.Pq(), Eotf.Hlg.forPeak(300), Eotf.Hlg.forPeak(1000), new Eotf.Bt1886(), new Eotf.Power(2.2));
        return LongStream.rangeClosed(1, 20)
                .boxed()
                .flatMap(seed -> eotfs.stream().map(e -> Arguments.of(e, seed)));
    }

    @ParameterizedTest
    @MethodSource("everyEotf")
    void luminanceNeverFallsAsTheSignalRises(Eotf eotf, long seed) {
        DisplayEotf display = eotf.on(anyRange(new Random(seed)));
        double[] luminance = IntStream.rangeClosed(0, 1000)
                .mapToDouble(i -> display.luminance(i / 1000.0))
                .toArray();
        assertThat(luminance).isSorted();
        assertThat(luminance[0]).isNotNegative();
    }

    @ParameterizedTest
    @MethodSource("everyEotf")
    void luminanceAndSignalUndoEachOther(Eotf eotf, long seed) {
        Random random = new Random(seed);
        LuminanceRange range = anyRange(random);
        DisplayEotf display = eotf.on(range);
        for (int i = 0; i < 100; i++) {
            double luminance = range.black() + random.nextDouble() * (range.white() - range.black());
            assertThat(display.luminance(display.signal(luminance))).isCloseTo(luminance, within(1e-9 * range.white()));
        }
    }

    @ParameterizedTest
    @MethodSource("everyEotf")
    void coloursSurviveTheWayToLightAndBack(Eotf eotf, long seed) {
        Random random = new Random(seed);
        LuminanceRange range = new LuminanceRange(0.0001, 1000);
        DisplayEotf display = eotf.on(range);
        double[] signals = random.doubles(3, 0.1, 0.7).toArray();
        double[] light = display.light(signals[0], signals[1], signals[2]);
        assertThat(display.signals(light[0], light[1], light[2])).containsExactly(signals, within(1e-9));
    }

    @ParameterizedTest
    @MethodSource("everyEotf")
    void aGreyIsAColourOfThreeEqualChannels(Eotf eotf, long seed) {
        Random random = new Random(seed);
        LuminanceRange range = anyRange(random);
        double signal = random.nextDouble();
        double luminance = eotf.on(range).luminance(signal);
        assertThat(eotf.on(range).light(signal, signal, signal))
                .containsExactly(new double[] {luminance, luminance, luminance}, within(1e-9 * range.white()));
    }

    private static LuminanceRange anyRange(Random random) {
        double white = Math.pow(10, 1.5 + 2 * random.nextDouble());
        return new LuminanceRange(
                random.nextInt(4) == 0 ? 0 : white * Math.pow(10, -6 + 4 * random.nextDouble()), white);
    }

    @Test
    void aWhiteNoBrighterThanBlackIsRefused() {
        assertThatThrownBy(() -> new LuminanceRange(100, 100))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("white luminance 100.0 cd/m2 must be greater than black luminance 100.0 cd/m2");
    }
}
