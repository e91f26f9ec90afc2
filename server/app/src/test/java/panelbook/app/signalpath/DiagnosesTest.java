package panelbook.app.signalpath;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.wire.Diagnosis;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.RoomSheet;
import panelbook.wire.RunUpload;
import panelbook.wire.SheetPreset;

/** What a converter left in the feed does to a ramp, and who is told; the explanations themselves are checked in the library. */
class DiagnosesTest extends ServiceTest {

    private Studio studio;
    private UUID follower;
    private Instant day;

    @BeforeEach
    void aRoom() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "lcd");
        day = clock.advance(Duration.ofHours(1)).minus(Duration.ofDays(10));
    }

    @Test
    void aConverterLeftInTheFeedIsNamedInTheVerdictWithHowSureAndWhatToCheckFirst() {
        var verdict = studio.upload(expanded(Purpose.AS_FOUND, day));
        var found = verdict.diagnosis();
        assertThat(found.suspect()).isTrue();
        assertThat(found.likeliest()).isEqualTo("narrow-expanded-as-full");
        assertThat(found.runnerUp()).isNotEqualTo(found.likeliest());
        assertThat(found.levels()).isEqualTo(11);
        assertThat(found.summary())
                .startsWith("Signal path suspect: narrow range expanded as full, ")
                .contains(" to one against ")
                .contains("Check first: a converter in the feed, and the input range that the display is set to.")
                .endsWith("Make no trims before.");
        assertThat(found.ranking().get(0).residualPercent()).isLessThan(1);
        assertThat(diagnosis(verdict.runId()))
                .as("asked later, it is found again")
                .isEqualTo(found);
    }

    @Test
    void aPathAsIntendedIsToldAtOnceAndWithAllThatWasWeighedOnRequest() {
        var verdict = studio.upload(run(Purpose.CHECK, day));
        assertThat(verdict.diagnosis().likeliest()).isEqualTo("as-intended");
        assertThat(verdict.diagnosis().suspect()).isFalse();
        assertThat(verdict.diagnosis().runnerUp())
                .as("a fault was not even weighed")
                .isNull();
        var whole = diagnosis(verdict.runId());
        assertThat(whole.likeliest()).isEqualTo("as-intended");
        assertThat(whole.suspect()).isFalse();
        assertThat(whole.ranking()).hasSizeGreaterThan(8);
        assertThat(whole.margin()).isPositive();
    }

    @Test
    void aRunWithoutARampHasNoDiagnosisAndSaysWhatIsMissing() {
        var verdict = studio.upload(part(run(Purpose.CHECK, day), 7, 11));
        assertThat(verdict.diagnosis()).isNull();
        assertThat(engineer()
                        .get("/runs/" + verdict.runId() + "/diagnosis")
                        .expect(409)
                        .problem()
                        .detail())
                .contains("at least 5 greys from black to white", "Measure a longer ramp");
        engineer().get("/runs/" + UUID.randomUUID() + "/diagnosis").expect(404);
    }

    @Test
    void theSheetTellsTheLatestRampTakenWarmAndNotWhileMatching() {
        assertThat(sheet()).isNull();
        var suspect = studio.upload(expanded(Purpose.AS_FOUND, day));
        studio.upload(part(run(Purpose.CHECK, day.plusSeconds(60)), 7, 11));
        studio.upload(run(Purpose.MATCH, day.plusSeconds(120)));
        studio.upload(studio.run(follower, studio.instrument(), Purpose.CHECK, day.plusSeconds(180), 1, asAimed()));
        assertThat(sheet())
                .as("a run without a ramp, one of a match and a cold one came after it")
                .isEqualTo(suspect.diagnosis());
        var mended = studio.upload(run(Purpose.CHECK, day.plusSeconds(240)));
        assertThat(sheet()).isEqualTo(mended.diagnosis());
        assertThat(sheet().suspect()).isFalse();
    }

    @Test
    void aRampOfEveryCodeIsThinnedToWhatTellsAsMuch() {
        var codes = Studio.TARGET.codes();
        var expected = Studio.TARGET.on(Studio.TARGET.aims());
        var every = java.util.stream.IntStream.rangeClosed(codes.black(), codes.white())
                .mapToObj(code -> entry(Patch.grey(code), expected.of(throughTheConverter(Patch.grey(code)))))
                .toList();
        var found = studio.upload(with(run(Purpose.CHECK, day), every)).diagnosis();
        assertThat(found.levels()).isEqualTo(33);
        assertThat(found.likeliest()).isEqualTo("narrow-expanded-as-full");
    }

    private Diagnosis diagnosis(UUID run) {
        return engineer().get("/runs/" + run + "/diagnosis").as(Diagnosis.class);
    }

    private Diagnosis sheet() {
        return engineer().get("/rooms/" + studio.room() + "/sheet").as(RoomSheet.class).targets().stream()
                .flatMap(target -> target.presets().stream())
                .filter(shown -> shown.preset().id().equals(follower))
                .map(SheetPreset::diagnosis)
                .toList()
                .get(0);
    }

    private RunUpload run(Purpose purpose, Instant takenAt) {
        return studio.run(follower, purpose, takenAt, asAimed());
    }

    /** Greys as a display shows them that is fed by a converter which expands narrow range to full. */
    private RunUpload expanded(Purpose purpose, Instant takenAt) {
        var expected = Studio.TARGET.on(Studio.TARGET.aims());
        var run = run(purpose, takenAt);
        return with(
                run,
                run.readings().stream()
                        .map(r -> new Patch(r.red(), r.green(), r.blue()))
                        .map(patch -> entry(patch, expected.of(throughTheConverter(patch))))
                        .toList());
    }

    /** Code values as narrow range maps to full, ITU-R BT.2100-2 table 9, in the bit depth of the target. */
    private static Patch throughTheConverter(Patch patch) {
        return new Patch(expanded(patch.red()), expanded(patch.green()), expanded(patch.blue()));
    }

    private static int expanded(int code) {
        var narrow = Studio.TARGET.codes();
        var full = new CodeValues(SignalRange.FULL, narrow.bitDepth());
        var out = Math.round((double) (code - narrow.black()) / (narrow.white() - narrow.black()) * full.white());
        // what the display takes for below black or above white it shows as these
        return (int) Math.max(narrow.black(), Math.min(narrow.white(), out));
    }

    private static ReadingEntry entry(Patch patch, panelbook.colorimetry.XYZ xyz) {
        return new ReadingEntry(patch.red(), patch.green(), patch.blue(), xyz.x(), xyz.y(), xyz.z());
    }

    private static RunUpload part(RunUpload run, int from, int to) {
        return with(run, run.readings().subList(from, to));
    }

    private static RunUpload with(RunUpload run, List<ReadingEntry> readings) {
        return new RunUpload(
                run.id(),
                run.presetId(),
                run.instrumentId(),
                run.purpose(),
                run.operator(),
                run.takenAt(),
                run.panelHours(),
                run.minutesSincePowerOn(),
                run.ambientIlluminanceLux(),
                run.fileName(),
                run.remarks(),
                run.baselineReason(),
                readings);
    }
}
