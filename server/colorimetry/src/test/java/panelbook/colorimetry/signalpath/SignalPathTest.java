package panelbook.colorimetry.signalpath;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.signalpath.Explanation.Kind;

class SignalPathTest {
    private static final CodeValues FULL = new CodeValues(SignalRange.FULL, 10);
    private static final CodeValues NARROW = new CodeValues(SignalRange.NARROW, 10);
    private static final Explanation INTENDED = Explanation.of(Kind.AS_INTENDED);
    private static final Explanation LIMITED = Explanation.of(Kind.PEAK_LIMITED);

    private static final Target PQ = new Target(RgbSpace.P3_D65, new Eotf.Pq(), FULL, new LuminanceRange(0.005, 1000));
    private static final Target POWER =
            new Target(RgbSpace.BT_709, new Eotf.Power(2.4), FULL, new LuminanceRange(0.02, 100));

    /** The full table, with more ramps, is printed by {@link ConfusionTable}. */
    @ParameterizedTest
    @EnumSource(SimulatedRamps.Aim.class)
    void everyFaultThatARampCanTellIsFoundInNinetyNineOfAHundred(SimulatedRamps.Aim aim) {
        List<Explanation> faults =
                ConfusionTable.truths(aim).stream().filter(Explanation::isFault).toList();
        assertThat(faults).hasSizeGreaterThanOrEqualTo(8);
        int right = 0;
        int toldApart = 0;
        for (Explanation fault : faults) {
            ConfusionTable.Row row = ConfusionTable.row(aim, fault, 25, 77);
            right += row.right();
            toldApart += row.total() - row.alike();
            assertThat(row.rightOrNamed())
                    .as("found, or named as not told apart: %s", row)
                    .isEqualTo(row.total());
        }
        assertThat(toldApart).as("ramps that tell").isGreaterThan(faults.size() * 25 / 2);
        assertThat(right).as("found of %d", toldApart).isGreaterThanOrEqualTo((int) Math.ceil(0.99 * toldApart));
    }

    /** 1,500 ramps in all: with none wrong, the share is below 1 in 500 at 95 %; the printed table takes 18,000. */
    @ParameterizedTest
    @EnumSource(SimulatedRamps.Aim.class)
    void aPathAsIntendedIsNotCalledAFault(SimulatedRamps.Aim aim) {
        ConfusionTable.Row row = ConfusionTable.row(aim, INTENDED, 250, 78);
        assertThat(row.takenFor()).isEmpty();
        assertThat(row.unexplained()).isZero();
    }

    /** A bound, not a guess: see {@link SignalPath#plainlyAsIntended}. */
    @ParameterizedTest
    @EnumSource(SimulatedRamps.Aim.class)
    void whatIsPlainlyAsIntendedIsSoAfterEveryFaultWasWeighed(SimulatedRamps.Aim aim) {
        int plain = 0;
        for (Explanation truth : ConfusionTable.truths(aim)) {
            for (int seed = 0; seed < 20; seed++) {
                SimulatedRamps.Drawn drawn = SimulatedRamps.draw(aim, truth, new Random(seed));
                Optional<Ranked> first = SignalPath.plainlyAsIntended(drawn.target(), drawn.noisy(), RampNoise.DEFAULT);
                if (first.isPresent()) {
                    plain++;
                    Diagnosis whole = SignalPath.diagnose(drawn.target(), drawn.noisy());
                    assertThat(whole.likeliest().explanation())
                            .as("%s, seed %d", truth, seed)
                            .isEqualTo(INTENDED);
                    assertThat(whole.suspect()).isFalse();
                    assertThat(first.orElseThrow().rmsLogResidual())
                            .isEqualTo(whole.likeliest().rmsLogResidual());
                }
            }
        }
        assertThat(plain).as("ramps told at once").isPositive();
    }

    @Test
    void everyExplanationHasAWordOfItsOwnAndEverySuspicionSaysWhatToCheck() {
        List<Explanation> all = Explanation.allFor(PQ);
        assertThat(all).extracting(DiagnosisText::word).doesNotHaveDuplicates().allMatch(w -> w.matches("[a-z0-9.-]+"));
        Diagnosis limited = SignalPath.diagnose(
                PQ, ramp(FULL, 20, v -> Math.min(Math.max(panelbook.colorimetry.St2084.luminance(v), 0.005), 400)));
        assertThat(DiagnosisText.summary(limited))
                .isEqualTo("Signal path suspect: peak limited, more than a million to one against "
                        + DiagnosisText.phrase(limited.runnerUp().explanation())
                        + ". Check first: a luminance limiter, power saving or tone mapping in the preset. Make no trims"
                        + " before.");
    }

    @Test
    void aConverterLeftInTheFeedIsNamedWithRunnerUpAndMarginAndWhereToLook() {
        Diagnosis d =
                SignalPath.diagnose(POWER, ramp(FULL, 10, v -> 0.02 + 100 * Math.pow((64 + 876 * v) / 1023, 2.4)));
        assertThat(d.likeliest().explanation()).isEqualTo(Explanation.of(Kind.FULL_SQUEEZED_TO_NARROW));
        assertThat(d.likeliest().explanation().firstCheck()).isEqualTo(FirstCheck.OUTPUT_RANGE_OF_SOURCE);
        assertThat(d.margin())
                .isCloseTo(d.runnerUp().score() - d.likeliest().score(), within(1e-12))
                .isGreaterThan(SignalPath.LEAST_SEPARATION);
        assertThat(d.suspect()).isTrue();
        assertThat(d.levels())
                .hasSize(11)
                .allSatisfy(l -> assertThat(l.likeliest() / l.measured()).isCloseTo(1, within(0.02)));
    }

    @Test
    void aDimmerWhiteOnTheRightCurveIsAsIntendedByDefinition() {
        Diagnosis d = SignalPath.diagnose(POWER, ramp(FULL, 10, v -> 0.02 + 55 * Math.pow(v, 2.4)));
        assertThat(d.likeliest().explanation()).isEqualTo(INTENDED);
        assertThat(d.likeliest().white()).isCloseTo(55, within(1.0));
        assertThat(d.suspect()).isFalse();
    }

    @Test
    void bt1886WithoutBlackAndAPowerOfTheSameGammaAreToldToBeAlike() {
        Target noBlack = new Target(RgbSpace.BT_709, new Eotf.Bt1886(), FULL, new LuminanceRange(0, 100));
        Diagnosis d = SignalPath.diagnose(noBlack, ramp(FULL, 10, v -> 100 * Math.pow(v, 2.4)));
        assertThat(d.likeliest().explanation()).isEqualTo(INTENDED);
        assertThat(d.notToldApart()).contains(Explanation.wrong(KnownEotf.POWER_2_4));
    }

    @Test
    void pqThatRollsOffNearItsAimIsAsIntendedAndWellBelowItIsPeakLimited() {
        DoubleUnaryOperator pq = v -> Math.max(panelbook.colorimetry.St2084.luminance(v), 0.005);
        assertThat(found(PQ, ramp(FULL, 20, v -> Math.min(pq.applyAsDouble(v), 930))))
                .isEqualTo(INTENDED);
        assertThat(found(PQ, ramp(FULL, 20, v -> Math.min(pq.applyAsDouble(v), 600))))
                .isEqualTo(LIMITED);
    }

    @Test
    void aRampThatEndsBelowTheTopSaysThatItCannotTellALimit() {
        List<Reading> lowerHalf = ramp(FULL, 20, v -> Math.max(panelbook.colorimetry.St2084.luminance(v), 0.005))
                .subList(0, 13);
        Diagnosis d = SignalPath.diagnose(PQ, lowerHalf);
        assertThat(d.likeliest().explanation()).isEqualTo(INTENDED);
        assertThat(d.notToldApart()).contains(LIMITED);
    }

    @Test
    void aRampThatNothingExplainsSaysSo() {
        // a colour management profile put on twice, a look, a broken cable: light falls in the middle
        Diagnosis d = SignalPath.diagnose(POWER, ramp(FULL, 10, v -> 1 + 40 * v * Math.abs(Math.cos(6 * v))));
        assertThat(d.explained()).isFalse();
        assertThat(d.suspect()).isTrue();
    }

    @Test
    void levelsAboveWhiteAreLeftOut() {
        Target narrow = new Target(RgbSpace.BT_709, new Eotf.Power(2.4), NARROW, new LuminanceRange(0.02, 100));
        List<Reading> greys = new ArrayList<>(ramp(NARROW, 5, v -> 0.02 + 100 * Math.pow(v, 2.4)));
        greys.add(reading(1000, 100));
        assertThat(SignalPath.diagnose(narrow, greys).levels()).hasSize(6);
    }

    @Test
    void blackThatReadsNothingIsNoObstacle() {
        assertThat(found(POWER, ramp(FULL, 10, v -> 100 * Math.pow(v, 2.4)))).isEqualTo(INTENDED);
    }

    @Test
    void fourGreysAreTooFew() {
        assertThatThrownBy(() -> SignalPath.diagnose(POWER, ramp(FULL, 3, v -> 100 * v)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "a signal path is told from at least 5 greys from black to white, but there are 4; measure a"
                                + " longer ramp");
    }

    @Test
    void aColourAmongTheGreysIsRefusedByName() {
        List<Reading> greys = new ArrayList<>(ramp(FULL, 5, v -> 100 * v));
        greys.add(new Reading(new Patch(1023, 0, 0), XYZ.of(Chromaticity.D65, 20)));
        assertThatThrownBy(() -> SignalPath.diagnose(POWER, greys))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("patch 1023/0/0 is no grey");
    }

    @Test
    void aMeterOffTheDisplayIsRefused() {
        assertThatThrownBy(() -> SignalPath.diagnose(POWER, ramp(FULL, 5, v -> 0.001)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("check that the meter is on the display");
    }

    private static Explanation found(Target target, List<Reading> greys) {
        return SignalPath.diagnose(target, greys).likeliest().explanation();
    }

    private static List<Reading> ramp(CodeValues codes, int steps, DoubleUnaryOperator luminance) {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i <= steps; i++) {
            int code = codes.toCode(i / (double) steps);
            readings.add(reading(code, luminance.applyAsDouble(codes.toSignal(code))));
        }
        return readings;
    }

    private static Reading reading(int code, double luminance) {
        return new Reading(Patch.grey(code), XYZ.of(Chromaticity.D65, luminance));
    }
}
