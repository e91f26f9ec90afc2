package panelbook.colorimetry.correction;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.PublishedTable;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;

class FourColourMatrixTest {
    private static final CodeValues CODES = new CodeValues(SignalRange.FULL, 10);
    private static final Target SDR =
            new Target(RgbSpace.P3_D65, new Eotf.Power(2.4), CODES, new LuminanceRange(0.01, 100));

    /** Filters 4 nm off: far more than a meter of good class, so that what the correction does is plain to see. */
    private static final Instrument WRONG_FILTERS = new Instrument(4, 0, 0, 0, 0.05, 0.02);

    // four_colour_*.csv: equations of Ohno and Hardis 1997, numbers computed apart from this library

    @ParameterizedTest
    @ValueSource(strings = {"crt", "lcd"})
    void theMatrixIsThatOfTheMethodsEquations(String display) {
        FourColourMatrix made = FourColourMatrix.of(pairs(display));
        NamedCsvRecord published = row("four_colour_matrices.csv", "display", display);
        Matrix3 r = made.chromatic();
        double[] elements = {r.m00(), r.m01(), r.m02(), r.m10(), r.m11(), r.m12(), r.m20(), r.m21(), r.m22()};
        for (int i = 0; i < 9; i++) {
            assertThat(elements[i])
                    .as("row %d column %d", i / 3, i % 3)
                    .isCloseTo(PublishedTable.number(published, "R" + i / 3 + i % 3), within(1e-12));
        }
        assertThat(made.luminanceFactor()).isCloseTo(PublishedTable.number(published, "kY_white"), within(1e-12));
    }

    @ParameterizedTest
    @ValueSource(strings = {"crt", "lcd"})
    void everyWorkedColourIsCorrectedToTheReferencesChromaticity(String display) {
        FourColourMatrix made = FourColourMatrix.of(pairs(display));
        for (NamedCsvRecord row : rows(display)) {
            Chromaticity corrected =
                    made.correct(field(row)).xyz().chromaticity().orElseThrow();
            Chromaticity reference = reference(row).chromaticity().orElseThrow();
            assertThat(corrected.x()).isCloseTo(PublishedTable.number(row, "corrected_x"), within(1e-12));
            assertThat(corrected.y()).isCloseTo(PublishedTable.number(row, "corrected_y"), within(1e-12));
            assertThat(corrected.x()).isCloseTo(reference.x(), within(1e-12));
            assertThat(corrected.y()).isCloseTo(reference.y(), within(1e-12));
        }
    }

    @Test
    void onTheOtherPanelItErrsAsMuchAsTheEquationsSay() {
        FourColourMatrix crt = FourColourMatrix.of(pairs("crt"));
        List<NamedCsvRecord> expected = PublishedTable.rows("four_colour_crt_on_lcd.csv");
        List<NamedCsvRecord> lcd = rows("lcd");
        for (int i = 0; i < expected.size(); i++) {
            Chromaticity xy =
                    crt.correct(field(lcd.get(i))).xyz().chromaticity().orElseThrow();
            assertThat(xy.x()).isCloseTo(PublishedTable.number(expected.get(i), "x"), within(1e-12));
            assertThat(xy.y()).isCloseTo(PublishedTable.number(expected.get(i), "y"), within(1e-12));
        }
    }

    @Test
    void whiteGetsTheReferencesLuminanceOrKeepsTheMeters() {
        PairedReadings pairs = pairs("crt");
        XYZ white = pairs.field().white();
        FourColourMatrix made = FourColourMatrix.of(pairs);
        assertThat(made.correct(white).xyz().y())
                .isCloseTo(pairs.reference().white().y(), within(1e-9));
        assertThat(made.keepingLuminanceOf(white).correct(white).xyz().y()).isCloseTo(white.y(), within(1e-9));
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 20);
    }

    /** Why the method is used: the luminances of the primaries' readings drop out (Ohno and Hardis 1997). */
    @ParameterizedTest
    @MethodSource("seeds")
    void theLuminanceNoiseOfThePrimariesDropsOut(long seed) {
        Random random = new Random(seed);
        PairedReadings pairs = pairs("lcd");
        FourColours f = pairs.field();
        FourColours flickering = new FourColours(
                f.red().times(0.5 + random.nextDouble()),
                f.green().times(0.5 + random.nextDouble()),
                f.blue().times(0.5 + random.nextDouble()),
                f.white());
        Matrix3 steady = FourColourMatrix.of(pairs).chromatic();
        Matrix3 flickered = FourColourMatrix.of(new PairedReadings(pairs.reference(), flickering))
                .chromatic();
        assertThat(flickered.m00()).isCloseTo(steady.m00(), within(1e-12));
        assertThat(flickered.m12()).isCloseTo(steady.m12(), within(1e-12));
        assertThat(flickered.determinant()).isCloseTo(steady.determinant(), within(1e-12));
    }

    static List<Primaries> panels() {
        return Primaries.all();
    }

    /** Grassmann's law: what is right for three primaries and their white is right for every mixture of them. */
    @ParameterizedTest
    @MethodSource("panels")
    void withWrongFiltersEveryAdditiveMixtureComesOutRight(Primaries panel) {
        FourColourMatrix correction = FourColourMatrix.of(PairedReadings.of(truth(panel), wrong(panel)));
        double before = error(FourColourMatrix.NONE, panel);
        double after = error(correction, panel);
        assertThat(before)
                .as("u'v' error of the wrong filters on %s", panel.technology())
                .isGreaterThan(0.003);
        // six digits after the point in the readings leave that much at the darkest patches
        assertThat(after)
                .as("u'v' error after correction on %s", panel.technology())
                .isLessThan(2e-4);
    }

    /** A correction belongs to a panel technology: on another it leaves an error that is larger by far. */
    @Test
    void onAnotherPanelTechnologyTheCorrectionIsWrong() {
        FourColourMatrix ofLcd = FourColourMatrix.of(PairedReadings.of(truth(Primaries.lcd()), wrong(Primaries.lcd())));
        for (Primaries other : List.of(Primaries.laser(), Primaries.emissive(), Primaries.quantumDotLcd())) {
            assertThat(error(ofLcd, other))
                    .as("u'v' error of the lcd's correction on %s", other.technology())
                    .isGreaterThan(0.002)
                    .isGreaterThan(10 * error(ofLcd, Primaries.lcd()));
        }
    }

    @Test
    void whatComesOutBelowZeroIsToldAndTheRawKept() {
        FourColourMatrix correction = FourColourMatrix.of(pairs("crt"));
        XYZ noise = new XYZ(0, 0.0001, 0.02);
        Corrected corrected = correction.correct(noise);
        assertThat(corrected.remarks())
                .containsExactlyInAnyOrder(Corrected.Remark.LUMINANCE_RAISED_TO_ZERO, Corrected.Remark.X_BELOW_ZERO);
        assertThat(corrected.xyz().y()).isZero();
        assertThat(corrected.product().y()).isNegative();
        assertThat(corrected.raw()).isEqualTo(noise);
        CorrectedRun run = correction.correct(List.of(
                new Reading(Patch.grey(0), noise),
                new Reading(Patch.grey(1023), pairs("crt").field().white())));
        assertThat(run.remarks()).containsOnlyKeys(Patch.grey(0));
        assertThat(run.readings()).hasSize(2);
    }

    @Test
    void aPatchReadTwiceIsRefused() {
        FourColours f = pairs("crt").field();
        FourColours twice = new FourColours(f.red(), f.red().times(1.001), f.blue(), f.white());
        assertThatThrownBy(() -> new PairedReadings(twice, f))
                .isInstanceOfSatisfying(
                        CorrectionRefused.class,
                        e -> assertThat(e.faults())
                                .extracting(Fault::reason)
                                .contains(Fault.Reason.PRIMARIES_ON_A_LINE))
                .hasMessageContaining("check for a patch read twice");
    }

    @Test
    void aWhiteThatIsNoMixtureIsRefused() {
        FourColours f = pairs("crt").field();
        FourColours strayLight = new FourColours(f.red(), f.green(), f.blue(), new XYZ(30, 10, 60));
        assertThatThrownBy(() -> new PairedReadings(f, strayLight))
                .isInstanceOfSatisfying(
                        CorrectionRefused.class,
                        e -> assertThat(e.faults())
                                .extracting(Fault::reason)
                                .contains(Fault.Reason.WHITE_OUTSIDE_PRIMARIES));
    }

    @Test
    void patchesInAnotherOrderAreRefused() {
        FourColours f = pairs("lcd").field();
        FourColours swapped = new FourColours(f.green(), f.red(), f.blue(), f.white());
        assertThatThrownBy(() -> new PairedReadings(f, swapped))
                .isInstanceOfSatisfying(
                        CorrectionRefused.class,
                        e -> assertThat(e.faults())
                                .extracting(Fault::reason)
                                .containsExactly(Fault.Reason.PAIR_DISAGREES, Fault.Reason.PAIR_DISAGREES));
    }

    @Test
    void aMeterLeftOffTheDisplayIsRefusedWithEveryDarkPatch() {
        FourColours f = pairs("lcd").field();
        FourColours dark = new FourColours(XYZ.BLACK, f.green(), XYZ.BLACK, f.white());
        assertThatThrownBy(() -> new PairedReadings(f, dark))
                .isInstanceOfSatisfying(
                        CorrectionRefused.class,
                        e -> assertThat(e.faults())
                                .extracting(Fault::reason)
                                .containsExactly(Fault.Reason.NO_LIGHT, Fault.Reason.NO_LIGHT))
                .hasMessageContaining("field reading of red")
                .hasMessageContaining("field reading of blue");
    }

    @Test
    void anotherLuminanceUnitIsRefused() {
        PairedReadings pairs = pairs("crt");
        FourColours f = pairs.field();
        FourColours footlamberts = new FourColours(
                f.red().times(0.2919),
                f.green().times(0.2919),
                f.blue().times(0.2919),
                f.white().times(0.2919));
        assertThatThrownBy(() -> new PairedReadings(pairs.reference(), footlamberts))
                .isInstanceOf(CorrectionRefused.class)
                .hasMessageContaining("white")
                .hasMessageContaining("in luminance");
    }

    @Test
    void runsWithoutTheFourPatchesAreRefusedByName() {
        Readings greysOnly = run(Primaries.lcd(), Instrument.PERFECT, Patches.greys(CODES, 5));
        assertThatThrownBy(() -> PairedReadings.of(greysOnly, greysOnly))
                .isInstanceOfSatisfying(
                        CorrectionRefused.class,
                        e -> assertThat(e.faults())
                                .hasSize(3)
                                .allSatisfy(f -> assertThat(f.reason()).isEqualTo(Fault.Reason.PATCH_MISSING)))
                .hasMessageStartingWith("red alone is not in both runs");
    }

    @Test
    void aReplacementIsShownPatchByPatch() {
        List<Reading> raw = wrong(Primaries.lcd()).all();
        FourColourMatrix correction =
                FourColourMatrix.of(PairedReadings.of(truth(Primaries.lcd()), wrong(Primaries.lcd())));
        Changes none = Changes.whenReplaced(correction, correction, raw);
        assertThat(none.largest().orElseThrow().deltaEItp()).isZero();
        Changes first = Changes.whenReplaced(FourColourMatrix.NONE, correction, raw);
        assertThat(first.all())
                .extracting(Change::patch)
                .containsExactlyElementsOf(raw.stream().map(Reading::patch).toList());
        Change white = first.all().stream()
                .filter(c -> c.patch().equals(Patch.grey(1023)))
                .findFirst()
                .orElseThrow();
        double rawWhite = white.before().y();
        assertThat(white.luminancePercent().orElseThrow()).isCloseTo(100 * (100 / rawWhite - 1), within(0.05));
        assertThat(first.meanDeltaEItp().orElseThrow())
                .isPositive()
                .isLessThanOrEqualTo(first.largest().orElseThrow().deltaEItp());
        assertThat(new Changes(new ArrayList<>()).largest()).isEmpty();
    }

    private static double error(FourColourMatrix correction, Primaries panel) {
        return Changes.fromReference(correction, truth(panel), wrong(panel))
                .largestDeltaUv()
                .orElseThrow();
    }

    private static Readings truth(Primaries panel) {
        return run(panel, Instrument.PERFECT, Patches.many(CODES, 60, new Random(3)));
    }

    private static Readings wrong(Primaries panel) {
        return run(panel, WRONG_FILTERS, Patches.many(CODES, 60, new Random(3)));
    }

    private static Readings run(Primaries panel, Instrument meter, List<Patch> patches) {
        SimulatedDisplay display = SimulatedDisplay.builder(panel).leak(0).build();
        return Readings.of(CODES, display.measure(SDR, patches, 0, meter, new Random(1)));
    }

    private static PairedReadings pairs(String display) {
        List<NamedCsvRecord> r = rows(display);
        return new PairedReadings(
                new FourColours(reference(r.get(0)), reference(r.get(1)), reference(r.get(2)), reference(r.get(3))),
                new FourColours(field(r.get(0)), field(r.get(1)), field(r.get(2)), field(r.get(3))));
    }

    private static List<NamedCsvRecord> rows(String display) {
        return PublishedTable.rows("four_colour_readings.csv").stream()
                .filter(r -> r.getField("display").equals(display))
                .toList();
    }

    private static NamedCsvRecord row(String file, String column, String value) {
        return PublishedTable.rows(file).stream()
                .filter(r -> r.getField(column).equals(value))
                .findFirst()
                .orElseThrow();
    }

    private static XYZ field(NamedCsvRecord row) {
        return PublishedTable.xyz(row, "field_X", "field_Y", "field_Z");
    }

    private static XYZ reference(NamedCsvRecord row) {
        return PublishedTable.xyz(row, "reference_X", "reference_Y", "reference_Z");
    }
}
