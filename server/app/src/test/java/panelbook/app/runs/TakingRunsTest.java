package panelbook.app.runs;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.testing.Answer;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.PanelHours;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Role;
import panelbook.wire.Run;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.SignalRange;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;

/** Runs go in whole or not at all, and the same run again is the same run. */
class TakingRunsTest extends ServiceTest {

    @Autowired
    private JdbcClient jdbc;

    private Studio studio;
    private Instant now;

    @BeforeEach
    void enterAStudio() {
        studio = new Studio(engineer(), unique("studio"));
        now = clock.advance(Duration.ofMinutes(10));
    }

    @Test
    void theSameRunAgainIsAnsweredWithTheFirstAnswer() {
        var run = run(Studio.readings(asAimed()));
        var first = as(Role.PROBE).post("/runs", run).expect(201);
        var again = as(Role.PROBE).post("/runs", run).expect(200);
        assertThat(again.as(RunVerdict.class)).isEqualTo(first.as(RunVerdict.class));
        assertThat(as(Role.PROBE).get("/runs/" + run.id() + "/verdict").as(RunVerdict.class))
                .isEqualTo(first.as(RunVerdict.class));
        assertThat(engineer().all("/runs?preset=" + studio.hero(), Run.class)).hasSize(1);
    }

    /** Answers are kept as they were given; what they did not know of yet reads as nothing. */
    @Test
    void anAnswerGivenByAnEarlierVersionOfTheServiceIsStillGiven() {
        var run = run(Studio.readings(asAimed()));
        var first = studio.upload(run);
        asAnEarlierVersionKept(run.id());
        assertThat(engineer()
                        .get("/runs/" + run.id() + "/verdict")
                        .as(RunVerdict.class)
                        .findings())
                .hasSameSizeAs(first.findings())
                .allSatisfy(finding -> assertThat(finding.corrections()).isEmpty());
        engineer().post("/runs", run).expect(200);
    }

    private void asAnEarlierVersionKept(UUID runId) {
        jdbc.sql("alter table run_answer disable trigger history").update();
        jdbc.sql("""
                        update run_answer set answer = (answer - 'diagnosis') || jsonb_build_object('findings',
                            (select jsonb_agg(f - 'corrections') from jsonb_array_elements(answer -> 'findings') f))
                        where run_id = :run
                        """).param("run", runId).update();
        jdbc.sql("alter table run_answer enable trigger history").update();
    }

    @Test
    void anotherRunWithTheIdOfAStoredOneIsRefusedAndChangesNothing() {
        var run = run(Studio.readings(asAimed()));
        studio.upload(run);
        var other = copy(run, run.id(), Studio.readings(Studio.dimmed(0.9)));
        assertThat(engineer().post("/runs", other).expect(409).problem().detail())
                .contains("Another run has the id")
                .contains("nothing was changed");
        assertThat(stored(run.id()).get(10)).isEqualTo(run.readings().get(10));
    }

    /** Often, since rivals meet at one of several unique keys, and seldom at the same. */
    @RepeatedTest(30)
    void rivalsThatSendTheSameRunAtOnceGetTheSameAnswerAndStoreItOnce() throws Exception {
        var run = run(Studio.readings(asAimed()));
        var service = engineer();
        Callable<RunVerdict> send = () -> service.post("/runs", run).as(RunVerdict.class);
        var pool = Executors.newFixedThreadPool(6);
        try {
            var answers = new ArrayList<RunVerdict>();
            for (var answer : pool.invokeAll(java.util.Collections.nCopies(6, send))) {
                answers.add(answer.get());
            }
            assertThat(answers).as("one answer for all").containsOnly(answers.get(0));
        } finally {
            pool.shutdownNow();
        }
        assertThat(engineer().all("/runs?preset=" + studio.hero(), Run.class)).hasSize(1);
    }

    @Test
    void readingsComeBackAsTheyWereMeasuredInTheOrderMeasured() {
        var run = run(Studio.readings(Studio.dimmed(1 / 3.0)));
        studio.upload(run);
        assertThat(stored(run.id())).isEqualTo(run.readings());
        var pages = engineer().all("/runs/" + run.id() + "/readings?limit=4", ReadingEntry.class);
        assertThat(pages).as("page by page").isEqualTo(run.readings());
    }

    @Test
    void aRunOfManyThousandReadingsGoesIn() {
        var readings = IntStream.range(0, 20_000)
                .mapToObj(i -> new ReadingEntry(64 + i % 800, 64 + i / 800, 500, 1, 1, 1))
                .toList();
        var run = run(readings);
        assertThat(studio.upload(run).readingCount()).isEqualTo(20_000);
    }

    @Test
    void aRunBringsThePanelHoursOfItsDisplay() {
        var upload = Studio.atPanelHours(run(Studio.readings(asAimed())), 1234.5);
        studio.upload(upload);
        var display = engineer()
                .get("/presets/" + studio.hero())
                .as(panelbook.wire.Preset.class)
                .displayId();
        assertThat(engineer().all("/displays/" + display + "/panel-hours", PanelHours.class))
                .singleElement()
                .satisfies(hours -> {
                    assertThat(hours.hours()).isEqualTo(1234.5);
                    assertThat(hours.runId()).isEqualTo(upload.id());
                });
    }

    static Stream<Arguments> wrongReadings() {
        return Stream.of(
                Arguments.of(entry(500, 500, 500, -0.1, 1, 1), "/readings/1/x", "not a tristimulus value"),
                Arguments.of(entry(2000, 500, 500, 1, 1, 1), "/readings/1/red", "code value 2000 is outside"),
                Arguments.of(entry(500, -4, 500, 1, 1, 1), "/readings/1/green", "code value -4 is outside"),
                Arguments.of(entry(940, 940, 940, 1, 1, 1), "/readings/1", "stands at /readings/0 already"));
    }

    @ParameterizedTest
    @MethodSource("wrongReadings")
    void aWrongReadingIsNamedByItsPlaceAndNothingIsStored(ReadingEntry wrong, String pointer, String message) {
        var run = run(List.of(entry(940, 940, 940, 950, 1000, 1089), wrong));
        var problem = engineer().post("/runs", run).expect(400).problem();
        assertThat(problem.errors()).singleElement().satisfies(error -> {
            assertThat(error.pointer()).isEqualTo(pointer);
            assertThat(error.detail()).contains(message);
        });
        engineer().get("/runs/" + run.id()).expect(404);
    }

    @Test
    void aNumberThatIsNoneIsNamedByItsPlace() {
        var run = run(List.of(entry(940, 940, 940, 950, 1000, 1089)));
        var json = new tools.jackson.databind.json.JsonMapper().writeValueAsString(run);
        for (var wrong : List.of("\"NaN\"", "1e999", "null", "\"much\"")) {
            var answer =
                    engineer().postJson("/runs", json.replace("950.0", wrong)).expect(400);
            assertThat(answer.text()).as(wrong).contains("/readings/0/x");
        }
    }

    @Test
    void allThatIsWrongIsSaidAtOnce() {
        var run = new RunUpload(
                UUID.randomUUID(),
                studio.hero(),
                studio.instrument(),
                Purpose.CHECK,
                " ",
                now.plus(Duration.ofDays(2)),
                -1.0,
                -5,
                -2.0,
                null,
                null,
                null,
                List.of());
        var problem = engineer().post("/runs", run).expect(400).problem();
        assertThat(problem.errors())
                .extracting(error -> error.pointer())
                .containsExactlyInAnyOrder(
                        "/operator",
                        "/takenAt",
                        "/panelHours",
                        "/ambientIlluminanceLux",
                        "/minutesSincePowerOn",
                        "/readings");
    }

    @Test
    void aPresetOrInstrumentThatIsNotInTheBookIsNamed() {
        var run = run(Studio.readings(asAimed()));
        var unknown = UUID.randomUUID();
        var preset = new RunUpload(
                UUID.randomUUID(),
                unknown,
                run.instrumentId(),
                Purpose.CHECK,
                "x",
                now,
                null,
                null,
                null,
                null,
                null,
                null,
                run.readings());
        assertThat(engineer().post("/runs", preset).expect(400).problem().detail())
                .contains("/presetId")
                .contains(unknown.toString());
        var meter = studio.run(studio.hero(), unknown, Purpose.CHECK, now, null, asAimed());
        assertThat(engineer().post("/runs", meter).expect(400).problem().detail())
                .contains("/instrumentId")
                .contains(unknown.toString());
    }

    @Test
    void aProbeUploadsChecksButDeclaresNoBaseline() {
        var run = withReason(studio.run(studio.hero(), Purpose.AS_LEFT, now, asAimed()), "because");
        assertThat(as(Role.PROBE).post("/runs", run).expect(403).problem().detail())
                .contains("A probe cannot declare a baseline");
        as(Role.MANAGER).post("/runs", run(Studio.readings(asAimed()))).expect(403);
        assertThat(engineer()
                        .post("/runs", withReason(run(Studio.readings(asAimed())), "because"))
                        .expect(400)
                        .problem()
                        .detail())
                .contains("only an as-left run");
    }

    @Test
    void aTargetKeepsItsCodeValuesOnceRunsWereMeasuredInThem() {
        codes(SignalRange.NARROW, 12).expect(200);
        codes(SignalRange.NARROW, 10).expect(200);
        studio.upload(run(Studio.readings(asAimed())));
        assertThat(codes(SignalRange.NARROW, 12).expect(409).problem().detail())
                .contains("10 bit narrow")
                .contains("add a new target");
        codes(SignalRange.FULL, 10).expect(409);
        codes(SignalRange.NARROW, 10).expect(200);
        studio.upload(run(Studio.readings(asAimed())));
    }

    private Answer codes(SignalRange range, int bits) {
        var there = engineer().get("/targets/" + studio.target());
        var t = there.as(Target.class);
        var draft = new TargetDraft(
                t.id(),
                t.name(),
                t.primaries(),
                t.eotf(),
                t.gamma(),
                range,
                bits,
                t.peakLuminance(),
                t.blackLuminance(),
                t.toleranceSetId());
        return engineer().put("/targets/" + t.id(), draft, there.etag());
    }

    @Test
    void aRunFromAClockThatWasNeverSetIsRefused() {
        for (var then : List.of(Instant.parse("1970-01-01T00:12:00Z"), Instant.MIN)) {
            var run = studio.run(studio.hero(), Purpose.CHECK, then, asAimed());
            assertThat(engineer().post("/runs", run).expect(400).problem().detail())
                    .contains("/takenAt");
        }
    }

    @Test
    void anAsLeftRunTakenInTheMiddleOfAMicrosecondIsTheBaselineOnce() {
        var nanos = now.plusNanos(1_999);
        assertThat(studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, nanos, asAimed()))
                        .becameBaseline())
                .isTrue();
        assertThat(studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, nanos, asAimed()))
                        .baselineNote())
                .contains("another one starts at the same instant");
    }

    private RunUpload run(List<ReadingEntry> readings) {
        return copy(studio.run(studio.hero(), Purpose.CHECK, now, asAimed()), UUID.randomUUID(), readings);
    }

    private static ReadingEntry entry(int red, int green, int blue, double x, double y, double z) {
        return new ReadingEntry(red, green, blue, x, y, z);
    }

    private static RunUpload copy(RunUpload run, UUID id, List<ReadingEntry> readings) {
        return new RunUpload(
                id,
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

    private static RunUpload withReason(RunUpload run, String reason) {
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
                run.readings());
    }

    private List<ReadingEntry> stored(UUID run) {
        return engineer().all("/runs/" + run + "/readings", ReadingEntry.class);
    }
}
