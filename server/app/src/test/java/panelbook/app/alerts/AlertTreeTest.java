package panelbook.app.alerts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.alerts.CauseReport.SubjectKind;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.AffectedFollower;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertEventKind;
import panelbook.wire.AlertState;
import panelbook.wire.Closure;
import panelbook.wire.Finding;
import panelbook.wire.HeldAlert;
import panelbook.wire.HeroDraft;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessState;
import panelbook.wire.Role;
import panelbook.wire.RoomReadiness;

/** An alert on a cause holds back those on what follows from it, and lists them; the history tells when and why. */
class AlertTreeTest extends ServiceTest {

    @Autowired
    private Alerts alerts;

    @Autowired
    private TransactionTemplate transactions;

    private Studio studio;
    private UUID hero;
    private UUID one;
    private UUID other;
    private Finding shown;

    /** A room whose hero moved: its alert is open, and its finding shows whatever else is reported. */
    @BeforeEach
    void aRoomWhoseHeroMoved() {
        studio = new Studio(engineer(), unique("studio"));
        hero = studio.hero();
        one = studio.display("Follower 1", "lcd");
        other = studio.display("Follower 2", "oled");
        measure(hero, Purpose.AS_LEFT, 1);
        measure(hero, Purpose.CHECK, 0.8);
        shown = alert(open(AlertCause.MOVED, hero).id()).findings().get(0);
    }

    @Test
    void aMovementIsHeldBackByTheStepThatExplainsItAndSpeaksAgainWhenTheStepIsClosed() {
        var moved = open(AlertCause.MOVED, hero);
        report(stepOf(hero));
        var step = open(AlertCause.STEPPED, hero);
        assertThat(alert(moved.id()).heldBy()).isEqualTo(step.id());
        assertThat(alert(step.id()).holds())
                .containsExactly(new HeldAlert(
                        moved.id(), AlertCause.MOVED, AlertState.OPEN, moved.subject(), moved.headline()));
        assertThat(step.holds())
                .as("lists say it as well")
                .isEqualTo(alert(step.id()).holds());
        assertThat(last(moved)).satisfies(event -> {
            assertThat(event.kind()).isEqualTo(AlertEventKind.HELD_BACK);
            assertThat(event.heldBack()).isTrue();
            assertThat(event.note()).contains("Explained by", step.subject(), step.headline());
        });

        report(gone(stepOf(hero)));
        assertThat(alert(moved.id()).heldBy()).isNull();
        assertThat(last(moved)).satisfies(event -> {
            assertThat(event.kind()).isEqualTo(AlertEventKind.RELEASED);
            assertThat(event.heldBack()).isFalse();
            assertThat(event.note()).contains(step.headline());
        });
    }

    @Test
    void whatOpensWhileItsCauseIsOpenIsOpenedHeldBack() {
        report(stepOf(hero, one));
        report(stepOf(one));
        var follower = open(AlertCause.STEPPED, one);
        assertThat(follower.heldBy()).isEqualTo(open(AlertCause.STEPPED, hero).id());
        assertThat(alert(follower.id()).history()).singleElement().satisfies(event -> {
            assertThat(event.kind()).isEqualTo(AlertEventKind.OPENED);
            assertThat(event.heldBack()).isTrue();
            assertThat(event.note()).contains("Explained by");
        });
    }

    @Test
    void whatOpensJustBeforeItsCauseInOneStrokeWakesNobody() {
        report(stepOf(one), stepOf(hero, one));
        assertThat(alert(open(AlertCause.STEPPED, one).id()).history())
                .extracting(AlertEvent::kind, AlertEvent::heldBack)
                .containsExactly(tuple(AlertEventKind.OPENED, true));
    }

    @Test
    void whatClosesTogetherWithItsCauseIsNotReleasedFirst() {
        report(stepOf(hero, one));
        report(stepOf(one));
        var follower = open(AlertCause.STEPPED, one);
        report(gone(stepOf(hero, one)), gone(stepOf(one)));
        assertThat(alert(follower.id()).history())
                .extracting(AlertEvent::kind, AlertEvent::heldBack)
                .containsExactly(tuple(AlertEventKind.OPENED, true), tuple(AlertEventKind.CLOSED, true));
    }

    @Test
    void theFeedHoldsBackTheWholeRoomAndTheMeterTheFeedAndEachTakesOverWithoutWakingAnybody() {
        report(stepOf(hero), stepOf(one), stepOf(other));
        report(stepOfFeed(hero, one, other));
        var feed = open(AlertCause.STEPPED, studio.room());
        assertThat(speaking()).containsExactly(feed.id());
        assertThat(feed.holds()).hasSize(4);

        report(stepOfMeter(hero, one, other));
        var meter = open(AlertCause.STEPPED, studio.instrument());
        assertThat(alert(meter.id()).holds())
                .extracting(HeldAlert::id)
                .hasSize(5)
                .contains(feed.id());
        assertThat(speaking()).as("in the room nothing speaks for itself").isEmpty();

        report(gone(stepOfMeter(hero, one, other)));
        assertThat(speaking()).containsExactly(feed.id());
        assertThat(last(open(AlertCause.STEPPED, one)).kind())
                .as("from the meter to the feed, still held back")
                .isEqualTo(AlertEventKind.HELD_BACK);
        assertThat(last(feed).kind()).isEqualTo(AlertEventKind.RELEASED);
    }

    @Test
    void aCauseThatNamesADisplayNoLongerReleasesIt() {
        report(stepOf(one), stepOf(other), stepOfFeed(hero, one, other));
        report(with(stepOfFeed(hero, one), finding(2)));
        assertThat(speaking())
                .containsExactlyInAnyOrder(
                        open(AlertCause.STEPPED, studio.room()).id(),
                        open(AlertCause.STEPPED, other).id());
    }

    @Test
    void aPersonWhoClosesTheCauseLetsWhatLastsSpeakForItself() {
        var moved = open(AlertCause.MOVED, hero);
        report(stepOf(hero));
        close(open(AlertCause.STEPPED, hero), "the converter was taken out again");
        assertThat(speaking()).containsExactly(moved.id());
        assertThat(last(moved).by()).as("by whoever closed the cause").contains("engineer");
    }

    @Test
    void aDisplayThatIsTakenToAnotherRoomIsExplainedByThisRoomsFeedNoLonger() {
        report(stepOf(one), stepOfFeed(hero, one));
        assertThat(open(AlertCause.STEPPED, one).heldBy()).isNotNull();
        alerts(a -> a.moveAllAbout(one, null));
        assertThat(alert(open(AlertCause.STEPPED, one).id()).heldBy()).isNull();
        alerts(a -> a.moveAllAbout(one, studio.room()));
        assertThat(open(AlertCause.STEPPED, one).heldBy())
                .isEqualTo(open(AlertCause.STEPPED, studio.room()).id());
    }

    @Test
    void onlyTheHeroOfTheRoomExplainsWhatItsFollowersDid() {
        report(stepOf(one, other), stepOf(other));
        assertThat(open(AlertCause.STEPPED, other).heldBy()).isNull();
        report(gone(stepOf(one)), gone(stepOf(other)));
        engineer()
                .post("/rooms/" + studio.room() + "/heroes", new HeroDraft(one, null))
                .expect(201);
        report(stepOf(one, other), stepOf(other));
        assertThat(open(AlertCause.STEPPED, other).heldBy())
                .isEqualTo(open(AlertCause.STEPPED, one).id());
    }

    @Test
    void causesAndWhatFollowsFromThemThatAreReportedAtOnceAgreeInTheEnd() throws Exception {
        var causes = List.of(
                stepOf(hero, one),
                stepOf(one),
                stepOf(other),
                stepOfFeed(hero, one, other),
                stepOfMeter(hero, one, other));
        var pool = Executors.newFixedThreadPool(4);
        try {
            for (var round = 0; round < 6; round++) {
                var value = round;
                var rivals = causes.stream()
                        .<Callable<Boolean>>map(cause -> () -> {
                            report(value % 2 == 0 ? with(cause, finding(value)) : gone(cause));
                            return true;
                        })
                        .toList();
                for (var done : pool.invokeAll(rivals)) {
                    assertThat(done.get()).isTrue();
                }
                lawsHold("round " + round);
            }
        } finally {
            pool.shutdownNow();
        }
    }

    @Test
    void aListOfTouchedDisplaysThatGrewHoldsBackTheNewOnesThoughTheFiguresStayed() {
        report(stepOfFeed(hero, one), stepOf(other));
        assertThat(open(AlertCause.STEPPED, other).heldBy()).isNull();
        report(stepOfFeed(hero, one, other));
        assertThat(open(AlertCause.STEPPED, other).heldBy())
                .isEqualTo(open(AlertCause.STEPPED, studio.room()).id());
    }

    @Test
    void whatWasNotCommittedLeavesNoTrace() {
        var moved = open(AlertCause.MOVED, hero);
        var before = alert(moved.id()).history();
        transactions.executeWithoutResult(status -> {
            alerts.report(stepOf(hero), "tests");
            status.setRollbackOnly();
        });
        assertThat(alert(moved.id()).history()).isEqualTo(before);
        assertThat(alert(moved.id()).heldBy()).isNull();
    }

    @Test
    void aListShowsAllUnlessAskedForThoseThatSpeakOrThoseThatAreHeldBack() {
        report(stepOf(hero));
        assertThat(listed("")).hasSize(2);
        assertThat(listed("&held=false")).extracting(Alert::cause).containsExactly(AlertCause.STEPPED);
        assertThat(listed("&held=true")).extracting(Alert::cause).containsExactly(AlertCause.MOVED);
        assertThat(listed("&held=false&cause=moved")).isEmpty();
        assertThat(listed("&cause=moved"))
                .as("whoever asks for movements sees it")
                .hasSize(1);
        engineer().get("/alerts?held=perhaps").expect(400);
    }

    @Test
    void readinessGivesOneReasonForACauseHoweverMuchFollowsFromIt() {
        measure(one, Purpose.AS_LEFT, 1);
        measure(one, Purpose.CHECK, 0.8);
        assertThat(reasons("moved")).as("each for itself").hasSize(2);
        report(stepOf(hero), stepOf(one), stepOfFeed(hero, one));
        assertThat(reasons("moved")).isEmpty();
        assertThat(reasons("stepped")).singleElement().satisfies(reason -> {
            assertThat(reason.weight()).as("as grave as what follows from it").isEqualTo(ReadinessState.NOT_READY);
            assertThat(reason.alertId())
                    .isEqualTo(open(AlertCause.STEPPED, studio.room()).id());
            assertThat(reason.display()).as("it is about no one display").isNull();
        });
        report(stepOfMeter(hero, one));
        assertThat(reasons("stepped")).singleElement().satisfies(reason -> {
            assertThat(reason.text()).contains("meter stepped");
            assertThat(reason.weight()).isEqualTo(ReadinessState.NOT_READY);
        });
    }

    @Test
    void aStepThatMovedNothingBeyondItsLimitIsARemark() {
        measure(hero, Purpose.CHECK, 1);
        report(stepOf(hero));
        assertThat(reasons("stepped"))
                .singleElement()
                .satisfies(reason -> assertThat(reason.weight()).isEqualTo(ReadinessState.READY_WITH_REMARKS));
    }

    @Test
    void theRoomSheetHoldsTheMetersAlertThatExplainsTheRooms() {
        report(stepOfMeter(hero));
        var onSheet = engineer().get("/rooms/" + studio.room() + "/sheet").as(panelbook.wire.RoomSheet.class);
        assertThat(onSheet.alerts())
                .extracting(Alert::subject)
                .contains(open(AlertCause.STEPPED, studio.instrument()).subject());
    }

    /** Alerts open, last and close in any order, several in one stroke; whatever happened, these hold. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void historyTellsAtAnyTimeWhichAlertsWereHeldBack(long seed) {
        var random = new Random(seed);
        var causes = List.of(
                stepOf(hero, one),
                stepOf(one),
                stepOf(other),
                stepOfFeed(hero, one, other),
                stepOfMeter(hero, one, other));
        for (var step = 0; step < 15; step++) {
            var stroke = new ArrayList<CauseReport>();
            for (var cause : causes) {
                switch (random.nextInt(4)) {
                    case 0 -> stroke.add(with(cause, finding(step)));
                    case 1 -> stroke.add(gone(cause));
                    default -> {}
                }
            }
            Collections.shuffle(stroke, random);
            clock.advance(Duration.ofMinutes(1));
            report(stroke.toArray(CauseReport[]::new));
            lawsHold("seed %d, stroke %d: %s"
                    .formatted(
                            seed,
                            step,
                            stroke.stream()
                                    .map(report -> report.headline() + " " + report.subject())
                                    .toList()));
        }
    }

    private void lawsHold(String as) {
        var open = new LinkedHashMap<UUID, Alert>();
        everywhere("").forEach(alert -> open.put(alert.id(), alert));
        var held = new HashMap<UUID, Set<UUID>>();
        open.values().forEach(alert -> {
            if (alert.heldBy() != null) {
                var holder = open.get(alert.heldBy());
                assertThat(holder).as("held back by what is open, " + as).isNotNull();
                assertThat(holder.heldBy())
                        .as("held back by what speaks, " + as)
                        .isNull();
                held.computeIfAbsent(holder.id(), id -> new HashSet<>()).add(alert.id());
            }
        });
        for (var alert : open.values()) {
            assertThat(alert.holds().stream().map(HeldAlert::id).collect(Collectors.toSet()))
                    .as("lists what it holds back, " + as)
                    .isEqualTo(held.getOrDefault(alert.id(), Set.of()));
        }
        everywhere("&state=open&state=closed")
                .forEach(alert -> assertThat(silent(alert(alert.id()), as))
                        .as("told by the history, " + as)
                        .isEqualTo(alert.heldBy() != null));
    }

    /** Goes through the history of an alert and gives whether it is held back at its end, or was when it was closed. */
    private static boolean silent(Alert alert, String as) {
        var open = false;
        var silent = false;
        var spoke = false;
        for (var event : alert.history()) {
            var opens = event.kind() == AlertEventKind.OPENED || event.kind() == AlertEventKind.REOPENED;
            assertThat(open).as("opened when closed, all else when open, " + as).isNotEqualTo(opens);
            switch (event.kind()) {
                case OPENED, REOPENED, HELD_BACK -> silent = event.heldBack();
                case RELEASED -> {
                    assertThat(silent).as("released when held back, " + as).isTrue();
                    silent = false;
                }
                case CLOSED ->
                    assertThat(event.heldBack())
                            .as("its end is told to whoever could hear of it, " + as)
                            .isEqualTo(!spoke);
                default -> {}
            }
            spoke = !silent || spoke && !opens;
            open = event.kind() != AlertEventKind.CLOSED;
        }
        return silent;
    }

    private void measure(UUID preset, Purpose purpose, double factor) {
        var now = clock.advance(Duration.ofMinutes(10));
        studio.upload(studio.run(preset, purpose, now, factor == 1 ? asAimed() : dimmed(factor)));
    }

    private void report(CauseReport... reports) {
        alerts(a -> List.of(reports).forEach(report -> a.report(report, "tests")));
    }

    private void alerts(java.util.function.Consumer<Alerts> work) {
        transactions.executeWithoutResult(status -> work.accept(alerts));
    }

    private CauseReport stepOf(UUID preset, UUID... touched) {
        return step(SubjectKind.PRESET, preset, "Display", touched);
    }

    private CauseReport stepOfFeed(UUID... touched) {
        return step(SubjectKind.ROOM, studio.room(), "Feed", touched);
    }

    private CauseReport stepOfMeter(UUID... touched) {
        return step(SubjectKind.INSTRUMENT, studio.instrument(), "meter", touched);
    }

    private CauseReport step(SubjectKind kind, UUID subject, String name, UUID... touched) {
        var meter = kind == SubjectKind.INSTRUMENT;
        return new CauseReport(
                AlertCause.STEPPED,
                kind,
                subject,
                studio.name() + " " + name,
                meter ? null : studio.facility(),
                meter ? null : studio.room(),
                "The " + name + " stepped.",
                List.of(touched).stream()
                        .map(preset -> new AffectedFollower(preset, "a display", "stepped then as well"))
                        .toList(),
                UUID.randomUUID().toString(),
                Map.of("step", finding(1)),
                Set.of());
    }

    private static CauseReport gone(CauseReport report) {
        return with(report, null);
    }

    private static CauseReport with(CauseReport report, @Nullable Finding finding) {
        return new CauseReport(
                report.cause(),
                report.subjectKind(),
                report.subjectId(),
                report.subject(),
                report.facilityId(),
                report.roomId(),
                finding == null ? "Nothing shows the step any longer." : report.headline(),
                report.followers(),
                report.evidence(),
                finding == null ? Map.of() : Map.of("step", finding),
                Set.of());
    }

    /** The finding that showed that the hero moved, with another value. */
    private Finding finding(double value) {
        return new Finding(
                shown.id(),
                shown.presetId(),
                shown.preset(),
                shown.runId(),
                shown.matchId(),
                shown.rule(),
                shown.metric(),
                value,
                shown.limit(),
                shown.unit(),
                shown.uncertainty(),
                shown.conformance(),
                shown.decision(),
                shown.explanation(),
                shown.readings(),
                shown.corrections(),
                shown.toleranceSetId(),
                shown.toleranceSet(),
                shown.toleranceSetVersion(),
                shown.basis(),
                shown.document(),
                shown.clause(),
                shown.assessedAt());
    }

    private List<Alert> listed(String filter) {
        return engineer().all("/alerts?room=" + studio.room() + filter, Alert.class);
    }

    private List<UUID> speaking() {
        return listed("&held=false").stream().map(Alert::id).toList();
    }

    /** Of the room, the displays that left it and the meter. */
    private List<Alert> everywhere(String filter) {
        return engineer().all("/alerts?limit=500" + filter, Alert.class).stream()
                .filter(alert -> Set.of(hero, one, other, studio.room(), studio.instrument())
                        .contains(alert.subjectId()))
                .toList();
    }

    private Alert open(AlertCause cause, UUID subject) {
        var found = everywhere("").stream()
                .filter(alert -> alert.cause() == cause && alert.subjectId().equals(subject))
                .toList();
        assertThat(found).as("%s on %s is open", cause, subject).hasSize(1);
        return found.get(0);
    }

    private Alert alert(UUID id) {
        return engineer().get("/alerts/" + id).expect(200).as(Alert.class);
    }

    private AlertEvent last(Alert alert) {
        var history = alert(alert.id()).history();
        return history.get(history.size() - 1);
    }

    private void close(Alert alert, String reason) {
        engineer()
                .post("/alerts/" + alert.id() + "/closure", new Closure(reason))
                .expect(200);
    }

    private List<panelbook.wire.Reason> reasons(String code) {
        return as(Role.MANAGER).get("/rooms/" + studio.room() + "/readiness").as(RoomReadiness.class).reasons().stream()
                .filter(reason -> reason.code().equals(code))
                .toList();
    }
}
