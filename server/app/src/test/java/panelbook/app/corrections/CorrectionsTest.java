package panelbook.app.corrections;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.CorrectionWithdrawalDraft;
import panelbook.wire.Decision;
import panelbook.wire.Diagnosis;
import panelbook.wire.FieldProblem;
import panelbook.wire.Finding;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.Metric;
import panelbook.wire.OpeningDraft;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.ReReadPreset;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Requirement;
import panelbook.wire.RoomSheet;
import panelbook.wire.Rule;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.RunWithdrawalDraft;

/**
 * A field meter whose filters lie 8 nm off, on the light of a laser: as it comes it finds fault with a display that the reference
 * instrument finds right; corrected it agrees. The method itself is checked in the library.
 */
class CorrectionsTest extends ServiceTest {

    private static final double FILTERS_OFF_NM = 8;

    /** What the reference reads of the panel's light to what the field meter reads of it. */
    private static final Matrix3 AS_THE_FIELD_METER_SEES_IT = Primaries.laser()
            .seen(FILTERS_OFF_NM)
            .times(Primaries.laser().seen(0).inverse());

    private static final String MODEL = "model lcd";

    private Studio studio;
    private UUID preset;
    private UUID display;
    private UUID field;
    private String fieldName;
    private Instant day;

    @BeforeEach
    void aRoomWithAReferenceAndAFieldMeter() {
        studio = new Studio(engineer(), unique("studio"));
        preset = studio.display("Client", "lcd");
        display = engineer().get("/presets/" + preset).as(Preset.class).displayId();
        fieldName = unique("Probe A");
        field = studio.meter(UUID.randomUUID(), fieldName, Instant.parse("2036-01-01T00:00:00Z"));
        day = clock.advance(Duration.ofHours(1)).minus(Duration.ofDays(30));
    }

    @Test
    void onceCorrectedTheFieldMeterAgreesWithTheReferenceAndSaysWhatItWasCorrectedWith() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        assertThat(reference.decision()).isEqualTo(Decision.WITHIN);
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        assertThat(raw.decision())
                .as("the wrong filters alone find fault with it")
                .isEqualTo(Decision.BEYOND);
        assertThat(raw.findings())
                .allSatisfy(finding -> assertThat(finding.corrections()).isEmpty());
        assertThat(decision(standing(), Metric.WHITE_CHROMATICITY_ERROR)).isEqualTo(Decision.BEYOND);

        var made = make(forDisplay(reference, raw)).expect(201).as(Correction.class);

        var name = fieldName + " on Client (display), version 1";
        assertThat(made.name()).isEqualTo(name);
        assertThat(made.inForce()).isTrue();
        assertThat(standing())
                .as("what rests on the field run was judged anew")
                .filteredOn(finding -> finding.runId().equals(raw.runId()))
                .isNotEmpty()
                .allSatisfy(finding -> assertThat(finding.decision()).isEqualTo(Decision.WITHIN))
                .filteredOn(finding -> finding.rule() == Rule.VERIFICATION || finding.rule() == Rule.OWN_DRIFT)
                .allSatisfy(finding -> assertThat(finding.corrections()).containsExactly(name));
        var next = upload(byField(preset, Purpose.CHECK, day.plusSeconds(1200)));
        assertThat(next.decision()).isEqualTo(Decision.WITHIN);
        assertThat(next.findings())
                .filteredOn(finding -> finding.rule() == Rule.VERIFICATION)
                .allSatisfy(finding -> assertThat(finding.corrections()).containsExactly(name))
                .allSatisfy(finding -> assertThat(finding.decision())
                        .as("%s as the reference found it", finding.metric())
                        .isEqualTo(decision(reference.findings(), finding.metric())));
    }

    @Test
    void readingsStayAsTheyWereTakenAndAreCorrectedOnRequest() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        var run = byField(preset, Purpose.CHECK, day.plusSeconds(600));
        var raw = upload(run);
        make(forDisplay(reference, raw)).expect(201);
        var path = "/runs/" + raw.runId() + "/readings";
        assertThat(engineer().all(path, ReadingEntry.class)).isEqualTo(run.readings());
        var corrected = engineer().all(path + "?corrected=true&limit=7", ReadingEntry.class);
        assertThat(corrected).hasSameSizeAs(run.readings());
        var truth = engineer().all("/runs/" + reference.runId() + "/readings", ReadingEntry.class);
        for (var i = 0; i < truth.size(); i++) {
            // Grassmann: right for every mixture of the four colours that it was made from
            assertThat(corrected.get(i).y())
                    .isCloseTo(truth.get(i).y(), offset(1e-3 * truth.get(i).y() + 1e-4));
            assertThat(corrected.get(i).x())
                    .isCloseTo(truth.get(i).x(), offset(1e-3 * truth.get(i).x() + 1e-3));
        }
    }

    @Test
    void whatItWouldChangeIsShownBeforeAndNothingIsChanged() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var before = standing();
        var alerts = engineer().get("/alerts?room=" + studio.room()).text();
        var draft = forDisplay(reference, raw);

        var preview = preview(draft).expect(200).as(CorrectionPreview.class);

        assertThat(preview.inForceNow()).isNull();
        assertThat(preview.inForceThen()).isEqualTo(preview.correction().name());
        assertThat(preview.errorBefore().largestDuv()).isGreaterThan(0.003);
        assertThat(preview.errorAfter().largestDuv()).isLessThan(2e-4);
        assertThat(preview.errorAfter().largestDeltaEItp())
                .isLessThan(preview.errorBefore().largestDeltaEItp());
        assertThat(preview.changes().patches()).isEqualTo(raw.readingCount());
        assertThat(preview.presets()).singleElement().satisfies(this::theClientIsJudgedRight);
        assertThat(standing()).as("nothing was changed").isEqualTo(before);
        assertThat(engineer().get("/alerts?room=" + studio.room()).text()).isEqualTo(alerts);
        assertThat(corrections()).isEmpty();

        make(draft).expect(201);
        assertThat(standing())
                .as("and then it is as it was shown")
                .filteredOn(finding -> finding.metric() == Metric.WHITE_CHROMATICITY_ERROR)
                .singleElement()
                .satisfies(finding -> assertThat(preview.presets().get(0).findings())
                        .filteredOn(change -> change.metric() == finding.metric())
                        .singleElement()
                        .satisfies(change -> assertThat(change.valueAfter()).isEqualTo(finding.value())));
        assertThat(preview(draft).expect(409).problem().detail()).contains("made already");
    }

    private void theClientIsJudgedRight(ReReadPreset shown) {
        assertThat(shown.presetId()).isEqualTo(preset);
        assertThat(shown.baseline()).as("the reference's run is read as before").isNull();
        assertThat(shown.latest().duv()).isGreaterThan(0.002);
        assertThat(shown.findings())
                .filteredOn(change -> change.metric() == Metric.WHITE_CHROMATICITY_ERROR)
                .singleElement()
                .satisfies(change -> {
                    assertThat(change.before()).isEqualTo(Decision.BEYOND);
                    assertThat(change.after()).isEqualTo(Decision.WITHIN);
                });
    }

    @Test
    void aCorrectionMadeAfterASignOffReadsThenAndNowAlikeSoThatNoResidualAppears() {
        var follower = upload(byField(preset, Purpose.MATCH, day));
        var hero = studio.run(studio.hero(), Purpose.MATCH, day.plusSeconds(60), Studio.asAimed());
        upload(hero);
        engineer()
                .post("/matches", studio.signOffDraft(preset, "Mara", follower.runId(), hero.id(), List.of()))
                .expect(201);
        var reference = upload(byReference(preset, Purpose.MATCH, day.plusSeconds(90)));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        make(forModel(reference, raw, null)).expect(201);
        assertThat(standing())
                .filteredOn(finding -> finding.rule() == Rule.HERO_DRIFT)
                .isNotEmpty()
                .allSatisfy(finding -> {
                    assertThat(finding.value()).isCloseTo(0, offset(1e-6));
                    assertThat(finding.decision()).isEqualTo(Decision.WITHIN);
                    assertThat(finding.corrections())
                            .containsExactly(fieldName + " on " + MODEL + " (model), version 1");
                });
    }

    @Test
    void readingsOfOneMeterWithDifferentCorrectionsCarryBothFullUncertainties() {
        var reference = upload(byReference(preset, Purpose.CHECK, day));
        var left = upload(withReason(byField(preset, Purpose.AS_LEFT, day.plusSeconds(600))));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(1200)));
        var repeatability = uncertainty(Metric.OWN_DRIFT_LUMINANCE);
        make(forDisplay(reference, raw)).expect(201);
        assertThat(uncertainty(Metric.OWN_DRIFT_LUMINANCE))
                .as("the same correction then and now leaves repeatability alone")
                .isCloseTo(repeatability, offset(0.01 * repeatability));
        make(new CorrectionDraft(
                        UUID.randomUUID(),
                        display,
                        null,
                        reference.runId(),
                        raw.runId(),
                        false,
                        day.plusSeconds(1200),
                        "repaired"))
                .expect(201);
        assertThat(standing())
                .filteredOn(finding -> finding.metric() == Metric.OWN_DRIFT_LUMINANCE)
                .singleElement()
                .satisfies(finding -> assertThat(finding.corrections())
                        .containsExactly(
                                fieldName + " on Client (display), version 2",
                                fieldName + " on Client (display), version 1"));
        // two full uncertainties of 1 %, k = 1: sqrt(2) %; DESIGN 3.4, no published source
        assertThat(uncertainty(Metric.OWN_DRIFT_LUMINANCE)).isCloseTo(Math.sqrt(2), offset(0.05));
        assertThat(left.becameBaseline()).isTrue();
    }

    @Test
    void theDisplaysOwnComesBeforeTheModelsThenTheLatestValidityThenTheHighestVersion() {
        var reference = upload(byReference(preset, Purpose.CHECK, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        assertThat(namedAt(day.plusSeconds(700))).isNull();
        make(forModel(reference, raw, null)).expect(201);
        assertThat(namedAt(day.plusSeconds(701))).isEqualTo(fieldName + " on model lcd (model), version 1");
        make(forModel(reference, raw, day.plusSeconds(600))).expect(201);
        assertThat(namedAt(day.plusSeconds(599))).isEqualTo(fieldName + " on model lcd (model), version 1");
        assertThat(namedAt(day.plusSeconds(702))).isEqualTo(fieldName + " on model lcd (model), version 2");
        var replacement = make(forModel(reference, raw, null)).expect(201).as(Correction.class);
        assertThat(namedAt(day.plusSeconds(598)))
                .as("a replacement reads old runs, too")
                .isEqualTo(fieldName + " on model lcd (model), version 3");
        assertThat(namedAt(day.plusSeconds(703)))
                .as("since the repair its own holds")
                .isEqualTo(fieldName + " on model lcd (model), version 2");
        var own = make(forDisplay(reference, raw)).expect(201).as(Correction.class);
        assertThat(namedAt(day.plusSeconds(704))).isEqualTo(fieldName + " on Client (display), version 1");
        assertThat(corrections())
                .extracting(Correction::version, Correction::model, Correction::inForce, Correction::validUntil)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(3, MODEL, true, day.plusSeconds(600)),
                        org.assertj.core.groups.Tuple.tuple(2, MODEL, true, null),
                        org.assertj.core.groups.Tuple.tuple(1, MODEL, false, day.plusSeconds(600)),
                        org.assertj.core.groups.Tuple.tuple(1, null, true, null));
        assertThat(sheetSays("Client")).isEqualTo(own.name());
        assertThat(sheetSays("Hero")).isNull();
        withdraw(own, "made on the wrong day").expect(200);
        withdraw(replacement, "no better").expect(200);
        assertThat(namedAt(day.plusSeconds(705))).isEqualTo(fieldName + " on model lcd (model), version 2");
        assertThat(namedAt(day.plusSeconds(597))).isEqualTo(fieldName + " on model lcd (model), version 1");
    }

    @Test
    void whatAnEarlierRunShowedAndLaterOnesDoNotSpeakOfIsReadAnewAsWell() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        upload(with(byReference(preset, Purpose.CHECK, day.plusSeconds(700)), readings -> readings.subList(0, 2)));
        assertThat(decision(standing(), Metric.WHITE_CHROMATICITY_ERROR))
                .as("nobody has measured white since")
                .isEqualTo(Decision.BEYOND);
        var made = make(forDisplay(reference, raw)).expect(201).as(Correction.class);
        for (var metric : List.of(Metric.WHITE_CHROMATICITY_ERROR, Metric.OWN_DRIFT_WHITE)) {
            assertThat(standing())
                    .filteredOn(finding -> finding.metric() == metric)
                    .singleElement()
                    .satisfies(finding -> {
                        assertThat(finding.decision()).isEqualTo(Decision.WITHIN);
                        assertThat(finding.corrections()).containsExactly(made.name());
                    });
        }
    }

    /** Whichever comes first, the standing findings end up with the correction: an upload under way is not missed. */
    @Test
    void aRunThatIsUploadedWhileACorrectionIsMadeEndsUpReadWithIt() throws Exception {
        var reference = upload(byReference(preset, Purpose.CHECK, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var both = Executors.newFixedThreadPool(2);
        try {
            for (var round = 1; round <= 12; round++) {
                var draft = forModel(reference, raw, null);
                // the first run of the meter there: nothing else says yet that it will rest on the correction
                var newcomer = studio.display("Newcomer " + round, "lcd");
                var run = byField(newcomer, Purpose.CHECK, day.plusSeconds(600 + 60L * round));
                List<Callable<Answer>> rivals =
                        List.of(() -> make(draft), () -> engineer().post("/runs", run));
                for (var done : both.invokeAll(rivals)) {
                    done.get().expect(201);
                }
                assertThat(standing(newcomer))
                        .as("round %d", round)
                        .filteredOn(finding -> finding.metric() == Metric.WHITE_CHROMATICITY_ERROR)
                        .singleElement()
                        .satisfies(finding -> {
                            assertThat(finding.runId()).isEqualTo(run.id());
                            assertThat(finding.corrections())
                                    .containsExactly(corrections().get(0).name());
                        });
            }
        } finally {
            both.shutdownNow();
        }
    }

    @Test
    void whatAMatchRestsOnNamesTheCorrectionToo() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var hero = upload(studio.run(studio.hero(), Purpose.AS_LEFT, day.plusSeconds(60), Studio.asAimed()));
        var match = engineer()
                .post("/matches", studio.signOffDraft(preset, "Mara", raw.runId(), hero.runId(), List.of()))
                .expect(201)
                .as(Match.class);
        assertThat(match.agreedOffset().corrections()).isEmpty();
        var name = make(forDisplay(reference, raw))
                .expect(201)
                .as(Correction.class)
                .name();
        assertThat(engineer()
                        .get("/matches/" + match.id())
                        .as(Match.class)
                        .agreedOffset()
                        .corrections())
                .containsExactly(name);
        assertThat(engineer()
                        .get("/runs/" + raw.runId() + "/diagnosis")
                        .expect(200)
                        .as(Diagnosis.class)
                        .corrections())
                .containsExactly(name);
        var story = engineer()
                .post(
                        "/match-stories",
                        new OpeningDraft(
                                UUID.randomUUID(), preset, studio.hero(), "Mara", field, 60, 60, true, List.of(), null))
                .expect(201)
                .as(MatchStory.class);
        assertThat(story.conditions())
                .filteredOn(condition -> condition.requirement() == Requirement.CONTRAST
                        || condition.requirement() == Requirement.FOLLOWER_SIGNAL_PATH)
                .hasSize(2)
                .allSatisfy(condition -> assertThat(condition.explanation()).contains("read with " + name));
    }

    @Test
    void aRunThatAnAppliedCorrectionWasMadeFromIsNotWithdrawnBeforeTheCorrectionIs() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var made = make(forDisplay(reference, raw)).expect(201).as(Correction.class);
        for (var run : List.of(reference, raw)) {
            assertThat(engineer()
                            .post(
                                    "/runs/" + run.runId() + "/withdrawal",
                                    new RunWithdrawalDraft("the wrong display was on", null))
                            .expect(409)
                            .problem()
                            .detail())
                    .contains(made.name())
                    .contains("withdraw the correction first");
        }
        assertThat(decision(standing(), Metric.WHITE_CHROMATICITY_ERROR))
                .as("nothing was changed")
                .isEqualTo(Decision.WITHIN);
        withdraw(made, "the wrong display was on").expect(200);
        engineer()
                .post("/runs/" + raw.runId() + "/withdrawal", new RunWithdrawalDraft("the wrong display was on", null))
                .expect(201);
    }

    @Test
    void whatIsWithdrawnIsReadAsBeforeAndStaysOnRecord() {
        var reference = upload(byReference(preset, Purpose.AS_LEFT, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var made = make(forDisplay(reference, raw)).expect(201).as(Correction.class);
        assertThat(decision(standing(), Metric.WHITE_CHROMATICITY_ERROR)).isEqualTo(Decision.WITHIN);
        assertThat(withdraw(made, " ").expect(400).problem().errors())
                .extracting(FieldProblem::pointer)
                .containsExactly("/reason");
        withdraw(made, "the wrong display was on").expect(200);
        assertThat(decision(standing(), Metric.WHITE_CHROMATICITY_ERROR)).isEqualTo(Decision.BEYOND);
        assertThat(standing())
                .allSatisfy(finding -> assertThat(finding.corrections()).isEmpty());
        assertThat(corrections()).singleElement().satisfies(kept -> {
            assertThat(kept.inForce()).isFalse();
            assertThat(kept.withdrawal().reason()).isEqualTo("the wrong display was on");
        });
        withdraw(made, "the wrong display was on").expect(200);
        withdraw(made, "another reason").expect(409);
    }

    @Test
    void aRepeatIsHarmlessAndOtherContentUnderTheSameIdIsNot() {
        var reference = upload(byReference(preset, Purpose.CHECK, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var draft = forDisplay(reference, raw);
        var made = make(draft).expect(201).as(Correction.class);
        assertThat(make(draft).expect(200).as(Correction.class)).isEqualTo(made);
        make(new CorrectionDraft(draft.id(), display, null, reference.runId(), raw.runId(), true, null, null))
                .expect(409);
        assertThat(corrections()).hasSize(1);
    }

    @Test
    void runsThatMakeNoCorrectionAreRefusedWithThePlaceAndWhatToDo() {
        var reference = upload(byReference(preset, Purpose.CHECK, day));
        var raw = upload(byField(preset, Purpose.CHECK, day.plusSeconds(600)));
        var other = studio.display("Other", "lcd");
        var elsewhere = upload(byReference(other, Purpose.CHECK, day));
        var greys = upload(with(
                byField(preset, Purpose.CHECK, day.plusSeconds(700)),
                readings -> readings.stream()
                        .filter(reading -> reading.red() == reading.green() && reading.green() == reading.blue())
                        .toList()));
        var dark = upload(with(
                byField(preset, Purpose.CHECK, day.plusSeconds(800)),
                readings -> readings.stream()
                        .map(r -> r.green() == 64 && r.blue() == 64
                                ? new ReadingEntry(r.red(), r.green(), r.blue(), 0, 0, 0)
                                : r)
                        .toList()));
        refused(forDisplay(reference, greys), "/fieldRunId", "red alone is not in both runs; measure it with both");
        refused(forDisplay(reference, dark), "/fieldRunId", "red holds no light");
        refused(forDisplay(elsewhere, raw), "/referenceRunId", "another preset");
        refused(forDisplay(raw, raw), "/referenceRunId", "the meter to be corrected itself");
        refused(forDisplay(reference, reference), "/fieldRunId", "not taken with this instrument");
        refused(draft(null, "model oled", reference, raw, null), "/model", "taken on a model lcd");
        refused(draft(UUID.randomUUID(), null, reference, raw, null), "/displayId", "not the display");
        refused(draft(null, null, reference, raw, null), "/displayId", "either a display or a model");
        refused(forModel(reference, raw, day.plusSeconds(900)), "/validFrom", "after the field run");
        assertThat(corrections()).isEmpty();
        engineer()
                .post("/instruments/" + UUID.randomUUID() + "/corrections", forDisplay(reference, raw))
                .expect(404);
    }

    private void refused(CorrectionDraft draft, String pointer, String words) {
        for (var answer : List.of(make(draft), preview(draft))) {
            assertThat(answer.expect(400).problem().errors()).anySatisfy(error -> {
                assertThat(error.pointer()).isEqualTo(pointer);
                assertThat(error.detail()).contains(words);
            });
        }
    }

    @Test
    void theSheetTellsHowABaselineWasCorrected() {
        var reference = upload(byReference(preset, Purpose.CHECK, day));
        var raw = upload(withReason(byField(preset, Purpose.AS_LEFT, day.plusSeconds(600))));
        assertThat(asLeftCorrection()).isNull();
        var made = make(forDisplay(reference, raw)).expect(201).as(Correction.class);
        assertThat(asLeftCorrection()).isEqualTo(made.name());
    }

    private String asLeftCorrection() {
        return sheet().targets().get(0).presets().stream()
                .filter(shown -> shown.preset().id().equals(preset))
                .findFirst()
                .orElseThrow()
                .asLeft()
                .correction();
    }

    private String sheetSays(String displayName) {
        return sheet().meters().stream()
                .filter(meter -> meter.instrument().id().equals(field))
                .findFirst()
                .orElseThrow()
                .corrections()
                .stream()
                .filter(one -> one.display().equals(displayName))
                .findFirst()
                .orElseThrow()
                .correction();
    }

    private RoomSheet sheet() {
        return engineer()
                .get("/rooms/" + studio.room() + "/sheet?instrument=" + field)
                .as(RoomSheet.class);
    }

    /** What a run taken at a time is corrected with. */
    private String namedAt(Instant takenAt) {
        return upload(byField(preset, Purpose.CHECK, takenAt)).findings().stream()
                .filter(finding -> finding.metric() == Metric.WHITE_CHROMATICITY_ERROR)
                .flatMap(finding -> finding.corrections().stream())
                .findFirst()
                .orElse(null);
    }

    private List<Finding> standing() {
        return standing(preset);
    }

    private List<Finding> standing(UUID of) {
        return engineer().get("/presets/" + of + "/findings").asListOf(Finding.class);
    }

    private double uncertainty(Metric metric) {
        return standing().stream()
                .filter(finding -> finding.metric() == metric)
                .findFirst()
                .orElseThrow()
                .uncertainty();
    }

    private static Decision decision(List<Finding> findings, Metric metric) {
        return findings.stream()
                .filter(finding -> finding.metric() == metric)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no finding of " + metric))
                .decision();
    }

    private List<Correction> corrections() {
        return engineer().get("/instruments/" + field + "/corrections").asListOf(Correction.class);
    }

    private Answer make(CorrectionDraft draft) {
        return engineer().post("/instruments/" + field + "/corrections", draft);
    }

    private Answer preview(CorrectionDraft draft) {
        return engineer().post("/instruments/" + field + "/corrections/preview", draft);
    }

    private Answer withdraw(Correction correction, String reason) {
        return engineer()
                .post(
                        "/instruments/" + field + "/corrections/" + correction.id() + "/withdrawal",
                        new CorrectionWithdrawalDraft(reason));
    }

    private CorrectionDraft forDisplay(RunVerdict reference, RunVerdict fieldRun) {
        return draft(display, null, reference, fieldRun, null);
    }

    private CorrectionDraft forModel(RunVerdict reference, RunVerdict fieldRun, Instant validFrom) {
        return draft(null, MODEL, reference, fieldRun, validFrom);
    }

    private static CorrectionDraft draft(
            UUID display, String model, RunVerdict reference, RunVerdict fieldRun, Instant validFrom) {
        return new CorrectionDraft(
                UUID.randomUUID(), display, model, reference.runId(), fieldRun.runId(), false, validFrom, null);
    }

    private RunVerdict upload(RunUpload run) {
        return studio.upload(run);
    }

    private RunUpload byReference(UUID of, Purpose purpose, Instant takenAt) {
        return studio.run(of, purpose, takenAt, Studio.asAimed());
    }

    private RunUpload byField(UUID of, Purpose purpose, Instant takenAt) {
        return studio.run(
                of, field, purpose, takenAt, 60, xyz -> AS_THE_FIELD_METER_SEES_IT.times(xyz.x(), xyz.y(), xyz.z()));
    }

    private static RunUpload withReason(RunUpload run) {
        return changed(run, "wanted so", run.readings());
    }

    private static RunUpload with(RunUpload run, UnaryOperator<List<ReadingEntry>> change) {
        return changed(run, run.baselineReason(), change.apply(run.readings()));
    }

    private static RunUpload changed(RunUpload run, String reason, List<ReadingEntry> readings) {
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
                reason,
                readings);
    }
}
