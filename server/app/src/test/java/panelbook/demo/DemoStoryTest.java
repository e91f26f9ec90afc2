package panelbook.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.AffectedFollower;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.BookEntered;
import panelbook.wire.Decision;
import panelbook.wire.DueList;
import panelbook.wire.DuePreset;
import panelbook.wire.DueReason;
import panelbook.wire.FacilityReadiness;
import panelbook.wire.Finding;
import panelbook.wire.Instrument;
import panelbook.wire.Metric;
import panelbook.wire.Preset;
import panelbook.wire.ReadinessState;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.SignOffDraft;
import panelbook.wire.files.RunIds;

/** The story that the try script tells, through the service's own door. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class DemoStoryTest extends ServiceTest {
    /** Rooms that only {@link DemoRecord} tells of. */
    private static final Set<String> FURTHER_ROOMS = Set.of("Fir", "Gorse", "Hazel");

    private final Map<String, RunVerdict> verdicts = new HashMap<>();
    private final Map<String, UUID> matchRuns = new HashMap<>();
    private DemoFacility demo;
    private UUID facility;

    @BeforeAll
    void theStory() {
        demo = DemoFacility.at(clock.instant());
        facility = engineer().post("/books", demo.book()).as(BookEntered.class).facilityId();
        demo.runs(DemoStep.AS_LEFT).forEach(this::upload);
        demo.runs(DemoStep.MATCH).forEach(this::upload);
        demo.signOffs().forEach(this::signOff);
        demo.runs(DemoStep.CHECKS).forEach(this::upload);
    }

    @Test
    void everyDisplayIsCalibratedAndHasItsBaseline() {
        for (var run : demo.runs(DemoStep.AS_LEFT)) {
            var verdict = verdict(DemoStep.AS_LEFT, preset(run));
            assertThat(verdict.becameBaseline()).as(verdict.toString()).isTrue();
            assertThat(verdict.decision()).as(verdict.toString()).isEqualTo(Decision.WITHIN);
        }
    }

    @Test
    void oneFollowerThatDriftedFromItsHeroAndOneHeroThatMovedRaiseOneAlertEachAndNobodyElseDoes() {
        assertThat(alerts("open"))
                .as("open alerts of the facility")
                .extracting(Alert::subject, Alert::cause)
                .containsExactlyInAnyOrder(
                        org.assertj.core.groups.Tuple.tuple(DemoFacility.DRIFTED, AlertCause.MOVED),
                        org.assertj.core.groups.Tuple.tuple(DemoFacility.MOVED_HERO, AlertCause.MOVED));
        assertThat(alerts("closed")).as("alerts that came and went").isEmpty();
    }

    @Test
    void theAlertOnTheHeroNamesTheFollowersThatItLeftBehind() {
        assertThat(alert(DemoFacility.MOVED_HERO).followers())
                .extracting(AffectedFollower::preset)
                .containsExactlyInAnyOrderElementsOf(DemoFacility.LEFT_BEHIND);
    }

    @Test
    void theFollowerThatMeasuresFarFromItsHeroIsWithinSinceItIsWhereItWasSignedOff() {
        var verdict = verdict(DemoStep.CHECKS, DemoFacility.FAR_BUT_MATCHED);
        assertThat(verdict.decision()).as(verdict.toString()).isEqualTo(Decision.WITHIN);
        var residual = finding(verdict, Metric.HERO_DRIFT_WHITE);
        assertThat(residual.value()).as(residual.explanation()).isLessThan(0.001);
        assertThat(rawDifference(residual)).as(residual.explanation()).isGreaterThan(0.011);
    }

    @Test
    void whatIsOutOfToleranceIsDueNowAndNothingElseOfTheStoryIs() {
        var due = engineer().get("/due?facility=" + facility).as(DueList.class).presets().stream()
                .filter(preset -> preset.rules().stream().anyMatch(rule -> rule.reason() == DueReason.OUT_OF_TOLERANCE))
                .toList();
        assertThat(due)
                .as("presets with an open alert")
                .extracting(DuePreset::preset, DuePreset::due)
                .containsExactlyInAnyOrder(
                        org.assertj.core.groups.Tuple.tuple(DemoFacility.DRIFTED, true),
                        org.assertj.core.groups.Tuple.tuple(DemoFacility.MOVED_HERO, true));
    }

    @Test
    void theRoomsWithoutAnAlertMayBeBooked() {
        var states = new HashMap<String, ReadinessState>();
        engineer().get("/facilities/" + facility + "/readiness").as(FacilityReadiness.class).rooms().stream()
                .filter(room -> !FURTHER_ROOMS.contains(room.room()))
                .forEach(room -> {
                    states.put(room.room(), room.state());
                    assertThat(room.reasons().isEmpty())
                            .as(room.toString())
                            .isEqualTo(room.state() == ReadinessState.READY);
                });
        assertThat(states)
                .isEqualTo(Map.of(
                        "Alder", ReadinessState.NOT_READY,
                        "Birch", ReadinessState.READY,
                        "Cedar", ReadinessState.NOT_READY,
                        "Dogwood", ReadinessState.READY_WITH_REMARKS,
                        "Elder", ReadinessState.READY));
    }

    @Test
    void theSameRunsAgainAreAnsweredWithTheFirstAnswers() {
        var first = new HashMap<>(verdicts);
        List.of(DemoStep.AS_LEFT, DemoStep.MATCH, DemoStep.CHECKS)
                .forEach(step -> demo.runs(step).forEach(this::upload));
        assertThat(verdicts).isEqualTo(first);
    }

    @Test
    void theSameMomentGivesTheSameFiles() {
        assertThat(ids(DemoFacility.at(clock.instant()))).isEqualTo(ids(demo));
    }

    private static List<UUID> ids(DemoFacility facility) {
        return facility.runs().stream().map(run -> RunIds.of(run.run())).toList();
    }

    /** The explanation gives the difference as measured after "by Δu′v′ ". */
    private static double rawDifference(Finding residual) {
        var text = residual.explanation();
        var from = text.indexOf("by Δu′v′ ") + "by Δu′v′ ".length();
        return Double.parseDouble(text.substring(from, from + 6));
    }

    private void upload(DemoRun run) {
        var metadata = run.run().metadata();
        var presetId = presetId(preset(run));
        var draft = new RunUpload(
                RunIds.of(run.run()),
                presetId,
                instrumentId(String.valueOf(metadata.instrument())),
                java.util.Objects.requireNonNull(metadata.purpose()),
                String.valueOf(metadata.operator()),
                java.util.Objects.requireNonNull(metadata.takenAt()),
                metadata.panelHours(),
                metadata.minutesSincePowerOn(),
                metadata.ambientLux(),
                run.fileName(),
                null,
                null,
                run.run().entries());
        verdicts.put(
                run.step() + " " + preset(run), engineer().post("/runs", draft).as(RunVerdict.class));
        if (run.step() == DemoStep.MATCH) {
            matchRuns.put(preset(run), draft.id());
        }
    }

    private void signOff(DemoSignOff signOff) {
        engineer()
                .post(
                        "/matches",
                        new SignOffDraft(
                                UUID.randomUUID(),
                                presetId(signOff.follower()),
                                presetId(signOff.hero()),
                                signOff.operator(),
                                matchRuns.get(signOff.follower()),
                                matchRuns.get(signOff.hero()),
                                signOff.trims(),
                                null,
                                null,
                                signOff.signedAt()))
                .expect(201);
    }

    private static String preset(DemoRun run) {
        return String.valueOf(run.run().metadata().preset());
    }

    private UUID presetId(String path) {
        return engineer().all("/presets?path=" + path, Preset.class).get(0).id();
    }

    private UUID instrumentId(String name) {
        return engineer()
                .all("/instruments?name=" + name, Instrument.class)
                .get(0)
                .id();
    }

    private RunVerdict verdict(DemoStep step, String preset) {
        return java.util.Objects.requireNonNull(verdicts.get(step + " " + preset), preset);
    }

    private List<Alert> alerts(String state) {
        return engineer().all("/alerts?facility=" + facility + "&state=" + state, Alert.class);
    }

    private Alert alert(String subject) {
        var found = new ArrayList<>(alerts("open"));
        found.removeIf(alert -> !alert.subject().equals(subject));
        return found.get(0);
    }

    private static Finding finding(RunVerdict verdict, Metric metric) {
        return verdict.findings().stream()
                .filter(finding -> finding.metric() == metric)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + metric + " in " + verdict));
    }
}
