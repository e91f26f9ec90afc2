package panelbook.app.notifying;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.alerts.AlertHistory;
import panelbook.app.alerts.Alerts;
import panelbook.app.alerts.CauseReport;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEventKind;
import panelbook.wire.AlertNotification;
import panelbook.wire.Closure;
import panelbook.wire.Finding;
import panelbook.wire.NotificationSettingsDraft;
import panelbook.wire.NotificationState;
import panelbook.wire.Preset;
import panelbook.wire.QuietPeriod;
import panelbook.wire.QuietPeriodDraft;
import panelbook.wire.Role;

/** Quiet periods, reminders and escalation, on the tests' own clock. */
class QuietTest extends NotifyingTest {

    private static final Duration HOUR = Duration.ofHours(1);

    @Autowired
    private QuietEnds ends;

    @Autowired
    private Reminders reminders;

    @Autowired
    private AlertHistory history;

    @Autowired
    private TransactionTemplate transactions;

    @Autowired
    private Alerts alerts;

    private Receiver receiver;

    @BeforeEach
    void open() throws Exception {
        receiver = new Receiver();
        set(new NotificationSettingsDraft(240, 1440, 5, 0));
        ends.run();
    }

    @AfterEach
    void close() {
        receiver.close();
    }

    /** 0 h quiet begins, alerts A and B open, B closes; 2 h it ends: one summary that tells of A alone. */
    @Test
    void aQuietRoomIsToldOfOnceAtTheEndWithWhatIsStillOpen() {
        webhook(receiver);
        quiet(studio.room(), null, HOUR.multipliedBy(2));
        var lasting = openAlert();
        var passing = openAlert();
        closeByHand(passing);
        send();
        assertThat(receiver.requests).isEmpty();
        assertThat(periods().get(0).kept()).isEqualTo(3);
        clock.advance(HOUR.multipliedBy(2));
        settleAndSend();
        settleAndSend();
        assertThat(receiver.requests).hasSize(1);
        assertThat(receiver.requests.get(0).body())
                .contains("panelbook.after-quiet", lasting.toString())
                .doesNotContain(passing.toString());
        assertThat(notifications(passing))
                .as("beside each event stands why nobody heard")
                .allSatisfy(one -> {
                    assertThat(one.state()).isEqualTo(NotificationState.LEFT_OUT);
                    assertThat(one.why()).contains("opened and closed within a quiet period");
                });
        closeByHand(lasting);
        send();
        assertThat(receiver.requests).as("whoever was told is told of the end").hasSize(2);
    }

    @Test
    void anAlertToldBeforeThatClosesInAQuietPeriodIsReportedClosedAtItsEnd() {
        webhook(receiver);
        var alert = openAlert();
        send();
        quiet(studio.room(), null, HOUR);
        closeByHand(alert);
        send();
        assertThat(receiver.requests).hasSize(1);
        clock.advance(HOUR);
        settleAndSend();
        assertThat(receiver.requests).hasSize(2);
        assertThat(receiver.requests.get(1).body()).contains("\"kind\":\"closed\"", alert.toString());
    }

    @Test
    void aQuietDisplayLeavesTheOthersOfItsRoomLoud() {
        webhook(receiver);
        var preset = studio.display(unique("Display"), "lcd");
        var display = engineer().get("/presets/" + preset).as(Preset.class).displayId();
        quiet(null, display, HOUR);
        var hushed = offTarget(preset, 0.5);
        var loud = openAlert();
        send();
        assertThat(receiver.requests).hasSize(1);
        assertThat(receiver.requests.get(0).body()).contains(loud.toString()).doesNotContain(hushed.toString());
    }

    @Test
    void aQuietPeriodEndedByHandTellsAtOnceUnlessAnotherOneHolds() {
        webhook(receiver);
        var first = quiet(studio.room(), null, HOUR.multipliedBy(3));
        var second = quiet(studio.room(), null, HOUR.multipliedBy(2));
        openAlert();
        clock.advance(Duration.ofMinutes(1));
        var ended = end(first);
        assertThat(ended.endedBy()).isEqualTo("calibrator of the tests");
        assertThat(end(first).endedAt()).as("a repeat is harmless").isEqualTo(ended.endedAt());
        settleAndSend();
        assertThat(receiver.requests).isEmpty();
        end(second);
        settleAndSend();
        assertThat(receiver.requests).hasSize(1);
    }

    @Test
    void anEventWrittenWhileAQuietPeriodEndsIsNotLost() throws Exception {
        webhook(receiver);
        var period = quiet(studio.room(), null, HOUR);
        var alert = openAlert();
        end(period);
        clock.advance(Duration.ofSeconds(1));
        transactions.executeWithoutResult(status -> {
            history.lock();
            history.add(alert, AlertEventKind.ESCALATED, "written while the period ends");
            var rival = new Thread(ends::run);
            rival.start();
            try {
                rival.join();
            } catch (InterruptedException e) {
                throw new AssertionError(e);
            }
        });
        settleAndSend();
        assertThat(receiver.requests).hasSize(1);
        assertThat(receiver.requests.get(0).body()).contains("written while the period ends");
        assertThat(notifications(alert)).noneMatch(one -> one.state() == NotificationState.QUIET);
    }

    @Test
    void aQuietPeriodNeedsAReasonAPlaceAndAnEnd() {
        var now = clock.instant();
        var none = new QuietPeriodDraft(UUID.randomUUID(), null, null, " ", null, now.minusSeconds(1));
        assertThat(as(Role.CALIBRATOR).post("/quiet-periods", none).expect(400).text())
                .contains("/reason", "/roomId", "/until");
        var draft = new QuietPeriodDraft(UUID.randomUUID(), studio.room(), null, "paint", null, now.plus(HOUR));
        engineer().post("/quiet-periods", draft).expect(201);
        engineer().post("/quiet-periods", draft).expect(200);
        engineer()
                .post(
                        "/quiet-periods",
                        new QuietPeriodDraft(draft.id(), studio.room(), null, "wax", null, now.plus(HOUR)))
                .expect(409);
    }

    /** Timetable: alert at 0 h, told; 3:59 nothing; 4:00 escalated to all; 24 h later reminded; 24 h later again. */
    @Test
    void whatNobodyAcknowledgesIsEscalatedOnceAndRemindedOf() throws Exception {
        webhook(receiver);
        try (var boss = new Receiver()) {
            add(webhookDraft(boss.url(), true));
            var alert = openAlert();
            send();
            assertThat(boss.requests).as("escalations only").isEmpty();
            remindAfter(Duration.ofMinutes(239));
            assertThat(receiver.requests).hasSize(1);
            remindAfter(Duration.ofMinutes(1));
            reminders.run();
            send();
            assertThat(receiver.requests).hasSize(2);
            assertThat(boss.requests).hasSize(1);
            assertThat(boss.requests.get(0).body()).contains("panelbook.alert.escalated", "within 4 h");
            remindAfter(Duration.ofHours(24));
            remindAfter(Duration.ofHours(24));
            assertThat(kinds(alert))
                    .containsExactly(
                            AlertEventKind.OPENED,
                            AlertEventKind.ESCALATED,
                            AlertEventKind.REMINDED,
                            AlertEventKind.REMINDED);
            closeByHand(alert);
            send();
            assertThat(boss.requests.get(boss.requests.size() - 1).body()).contains("panelbook.alert.closed");
            remindAfter(Duration.ofDays(9));
            assertThat(kinds(alert)).last().isEqualTo(AlertEventKind.CLOSED);
        }
    }

    @Test
    void whatSomebodyHasInHandIsNeitherEscalatedNorRemindedOf() {
        webhook(receiver);
        var alert = openAlert();
        engineer()
                .post("/alerts/" + alert + "/acknowledgement", new Acknowledgement("visit on Thursday"))
                .expect(200);
        send();
        remindAfter(Duration.ofDays(9));
        assertThat(receiver.requests).hasSize(1);
    }

    @Test
    void timeInAQuietPeriodDoesNotCountTowardsEscalation() {
        webhook(receiver);
        var alert = openAlert();
        send();
        quiet(studio.room(), null, HOUR.multipliedBy(10));
        remindAfter(HOUR.multipliedBy(9));
        assertThat(receiver.requests).as("quiet").hasSize(1);
        clock.advance(HOUR);
        settleAndSend();
        remindAfter(HOUR.multipliedBy(3));
        assertThat(receiver.requests).hasSize(1);
        remindAfter(HOUR.multipliedBy(1));
        assertThat(kinds(alert)).containsExactly(AlertEventKind.OPENED, AlertEventKind.ESCALATED);
    }

    @Test
    void whatAnotherAlertExplainsWakesNobodyUntilItSpeaksForItself() throws Exception {
        webhook(receiver);
        var explained = openAlert();
        send();
        var shown = engineer().get("/alerts/" + explained).as(Alert.class);
        report(shown, AlertCause.STEPPED, 1);
        send();
        assertThat(told()).containsExactly("opened off-target", "opened stepped");
        report(shown, AlertCause.OFF_TARGET, 10);
        remindAfter(Duration.ofHours(5));
        assertThat(told().subList(2, told().size()))
                .as("only the cause is escalated, and what it explains may grow worse")
                .containsExactly("escalated stepped");
        report(shown, AlertCause.STEPPED, 0);
        send();
        assertThat(told().subList(3, told().size())).containsExactly("closed stepped", "released off-target");
        report(shown, AlertCause.STEPPED, 1);
        closeByHand(explained);
        send();
        assertThat(told().subList(5, told().size()))
                .as("whoever was told is told of the end, held back or not")
                .containsExactly("reopened stepped", "closed off-target");
    }

    /** Reports a cause where an alert lies, by a finding so many times as grave as the alert's; by none at 0. */
    private void report(Alert at, AlertCause cause, double times) {
        clock.advance(Duration.ofSeconds(1));
        var report = new CauseReport(
                cause,
                CauseReport.SubjectKind.PRESET,
                at.subjectId(),
                at.subject(),
                at.facilityId(),
                at.roomId(),
                times > 0 ? "It is so." : "It is so no longer.",
                List.of(),
                "tests",
                times > 0 ? Map.of("slot", graver(at.findings().get(0), times)) : Map.of(),
                Set.of());
        transactions.executeWithoutResult(status -> alerts.report(report, "tests"));
    }

    private static Finding graver(Finding one, double times) {
        return new Finding(
                one.id(),
                one.presetId(),
                one.preset(),
                one.runId(),
                one.matchId(),
                one.rule(),
                one.metric(),
                times * one.value(),
                one.limit(),
                one.unit(),
                one.uncertainty(),
                one.conformance(),
                one.decision(),
                one.explanation(),
                one.readings(),
                one.corrections(),
                one.toleranceSetId(),
                one.toleranceSet(),
                one.toleranceSetVersion(),
                one.basis(),
                one.document(),
                one.clause(),
                one.assessedAt());
    }

    private List<String> told() {
        return told(receiver);
    }

    @Test
    void aFacilityMayWishNoEscalationAndNoReminder() {
        set(new NotificationSettingsDraft(null, null, 5, 0));
        webhook(receiver);
        openAlert();
        send();
        remindAfter(Duration.ofDays(30));
        assertThat(receiver.requests).hasSize(1);
    }

    /** Gathers nothing, so that the timetable of a test counts from its alert. */
    private void remindAfter(Duration time) {
        clock.advance(time);
        reminders.run();
        send();
    }

    private void settleAndSend() {
        ends.run();
        send();
    }

    private UUID quiet(UUID room, UUID display, Duration length) {
        Instant until = clock.instant().plus(length);
        var draft = new QuietPeriodDraft(UUID.randomUUID(), room, display, "painters", null, until);
        as(Role.CALIBRATOR).post("/quiet-periods", draft).expect(201);
        return draft.id();
    }

    private QuietPeriod end(UUID period) {
        return as(Role.CALIBRATOR)
                .post("/quiet-periods/" + period + "/end")
                .expect(200)
                .as(QuietPeriod.class);
    }

    private List<QuietPeriod> periods() {
        return engineer()
                .get("/quiet-periods?room=" + studio.room())
                .expect(200)
                .asListOf(QuietPeriod.class);
    }

    private void closeByHand(UUID alert) {
        engineer().post("/alerts/" + alert + "/closure", new Closure("done")).expect(200);
    }

    private List<AlertEventKind> kinds(UUID alert) {
        return notifications(alert).stream()
                .filter(one -> one.channel().startsWith("webhook"))
                .map(AlertNotification::sequence)
                .distinct()
                .map(sequence -> notifications(alert).stream()
                        .filter(one -> one.sequence() == sequence)
                        .findFirst()
                        .orElseThrow()
                        .kind())
                .toList();
    }
}
