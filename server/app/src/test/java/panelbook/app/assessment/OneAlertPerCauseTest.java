package panelbook.app.assessment;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEventKind;
import panelbook.wire.AlertState;
import panelbook.wire.Closure;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessState;
import panelbook.wire.RunVerdict;

/** The story of a room: calibrated, matched, and then something moves. */
class OneAlertPerCauseTest extends RoomTest {

    @Test
    void aRunThatVerifiesBecomesTheBaselineAndTheVerdictSaysSo() {
        var verdict = asLeft(follower, asAimed());
        assertThat(verdict.becameBaseline()).as(verdict.baselineNote()).isTrue();
        assertThat(verdict.findings())
                .as("nothing is beyond on a display that measures as its target asks")
                .noneMatch(finding -> finding.decision() == Decision.BEYOND);
        assertThat(verdict.alerts()).isEmpty();
    }

    @Test
    void aFollowerThatDriftedFromItsHeroRaisesOneAlert() {
        matchedRoom(tinted(0.012, -0.004));
        check(studio.hero(), asAimed());
        var verdict = check(follower, tinted(0.012 + 0.009, -0.004));
        assertThat(verdict.decision()).isEqualTo(Decision.BEYOND);
        var alerts = openAlerts();
        assertThat(alerts).as("alerts of the room: %s", alerts).hasSize(1);
        assertThat(alerts.get(0).cause()).isEqualTo(AlertCause.MOVED);
        assertThat(alerts.get(0).subjectId()).as("the follower moved").isEqualTo(follower);
        var residual = residual(verdict, Metric.HERO_DRIFT_WHITE);
        assertThat(residual.value()).isCloseTo(0.009, org.assertj.core.data.Offset.offset(1e-9));
        assertThat(residual.explanation()).contains("the follower explains 100 % of it, the hero 0 %");
        assertThat(residual.readings()).as("white of both, then and now").hasSize(4);
    }

    /** As the book kept them before meters had corrections. */
    @Test
    void anAlertOpenedBeforeFindingsNamedCorrectionsIsShownAndCarriedOn() throws SQLException {
        matchedRoom(tinted(0.012, -0.004));
        check(studio.hero(), asAimed());
        check(follower, tinted(0.012 + 0.009, -0.004));
        var alert = openAlerts().get(0);
        try (var connection = DATABASE.connect();
                var forget = connection.prepareStatement("""
                        update alert set detail = jsonb_set(detail, '{findings}',
                            (select jsonb_agg(f - 'corrections') from jsonb_array_elements(detail -> 'findings') f))
                        where id = ?
                        """)) {
            forget.setObject(1, alert.id());
            assertThat(forget.executeUpdate()).isEqualTo(1);
        }
        assertThat(openAlerts()).extracting(Alert::id).containsExactly(alert.id());
        assertThat(engineer()
                        .get("/alerts/" + alert.id())
                        .expect(200)
                        .as(Alert.class)
                        .findings())
                .isNotEmpty()
                .allSatisfy(finding -> assertThat(finding.corrections()).isEmpty());
        check(follower, tinted(0.012 + 0.019, -0.004));
        assertThat(openAlerts()).extracting(Alert::id).containsExactly(alert.id());
    }

    @Test
    void aHeroThatMovedRaisesOneAlertThatNamesItsFollowers() {
        var second = studio.display("Follower 2", "lcd");
        matchedRoom(tinted(0.012, -0.004), follower, second);
        check(follower, tinted(0.012, -0.004));
        check(second, tinted(0.012, -0.004));
        assertThat(openAlerts()).as("nothing moved so far").isEmpty();
        check(studio.hero(), dimmed(0.88));
        var alerts = openAlerts();
        assertThat(alerts).as("alerts of the room: %s", alerts).hasSize(1);
        assertThat(alerts.get(0).subjectId()).as("the hero moved").isEqualTo(studio.hero());
        assertThat(alerts.get(0).followers())
                .extracting(affected -> affected.presetId())
                .containsExactlyInAnyOrder(follower, second);
        assertThat(alerts.get(0).headline()).contains("Follower 1").contains("Follower 2");
    }

    @Test
    void aWellMatchedFollowerWhoseRawDifferenceIsLargeRaisesNone() {
        matchedRoom(tinted(0.02, -0.008));
        check(studio.hero(), asAimed());
        var verdict = check(follower, tinted(0.02, -0.008));
        assertThat(openAlerts()).isEmpty();
        assertThat(residual(verdict, Metric.HERO_DRIFT_WHITE).decision()).isEqualTo(Decision.WITHIN);
        assertThat(residual(verdict, Metric.HERO_DRIFT_WHITE).explanation())
                .as("the raw difference is shown, though it raises nothing")
                .contains("differs from the hero by Δu′v′ 0.0215");
    }

    @Test
    void aMatchedFollowerIsJudgedByWhatWasSignedOffRatherThanByItsTarget() {
        matchedRoom(tinted(0.02, -0.008));
        var verdict = check(follower, tinted(0.02, -0.008));
        assertThat(verdict.decision()).as("%s", verdict.findings()).isEqualTo(Decision.WITHIN);
        assertThat(residual(verdict, Metric.OWN_DRIFT_WHITE).explanation()).contains("since the sign-off");
    }

    @Test
    void aFollowerMatchedForTwoOperatorsStandsInTheStateOfOneOfThem() {
        matchedRoom(tinted(0.012, -0.004));
        var heroRun = run(studio.hero(), Purpose.MATCH, asAimed());
        var otherRun = run(follower, Purpose.MATCH, tinted(0.003, 0.006));
        studio.upload(heroRun);
        studio.upload(otherRun);
        studio.signOff(follower, "operator B", otherRun, heroRun);
        for (var state : List.of(tinted(0.012, -0.004), tinted(0.003, 0.006))) {
            assertThat(check(follower, state).decision()).isEqualTo(Decision.WITHIN);
            assertThat(openAlerts()).isEmpty();
        }
        check(follower, tinted(-0.01, 0.01));
        assertThat(openAlerts()).as("near to neither").hasSize(1);
    }

    @Test
    void twoDisplaysThatMovedAlikeLeaveNoResidual() {
        matchedRoom(tinted(0.012, -0.004));
        check(studio.hero(), dimmed(0.97));
        var verdict = check(follower, xyz -> tinted(0.012, -0.004).apply(xyz).times(0.97));
        assertThat(residual(verdict, Metric.HERO_DRIFT_LUMINANCE).value()).isLessThan(1e-6);
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void anAlertIsUpdatedWhileItLastsAndClosedByARunThatShowsItGone() {
        matchedRoom(asAimed());
        var opened = check(follower, dimmed(0.88));
        assertThat(opened.alerts()).extracting(notice -> notice.event()).containsExactly(AlertEventKind.OPENED);
        var updated = check(follower, dimmed(0.86));
        assertThat(updated.alerts()).extracting(notice -> notice.event()).containsExactly(AlertEventKind.UPDATED);
        var closed = check(follower, asAimed());
        assertThat(closed.alerts()).extracting(notice -> notice.event()).containsExactly(AlertEventKind.CLOSED);
        assertThat(openAlerts()).isEmpty();
        var alert = alert(closed.alerts().get(0).alertId());
        assertThat(alert.state()).isEqualTo(AlertState.CLOSED);
        assertThat(alert.history())
                .extracting(event -> event.kind())
                .containsExactly(AlertEventKind.OPENED, AlertEventKind.UPDATED, AlertEventKind.CLOSED);
    }

    @Test
    void aValueAtTheLimitDoesNotFlap() {
        matchedRoom(asAimed());
        check(follower, dimmed(0.93));
        for (var factor : List.of(0.953, 0.947, 0.952, 0.948, 0.951)) {
            var verdict = check(follower, dimmed(factor));
            assertThat(verdict.alerts())
                    .as("5 % is the limit, %s is at it: the open alert may be updated, not closed or doubled", factor)
                    .noneMatch(notice ->
                            notice.event() == AlertEventKind.CLOSED || notice.event() == AlertEventKind.OPENED);
        }
        assertThat(openAlerts()).hasSize(1);
    }

    @Test
    void aPersonTakesAnAlertInHandAndClosesItWithAReason() {
        matchedRoom(asAimed());
        check(follower, dimmed(0.88));
        var id = openAlerts().get(0).id();
        engineer()
                .post("/alerts/" + id + "/acknowledgement", new Acknowledgement("calibrator comes on Thursday"))
                .expect(200);
        assertThat(openAlerts().get(0).state()).isEqualTo(AlertState.ACKNOWLEDGED);
        engineer().post("/alerts/" + id + "/closure", new Closure(" ")).expect(400);
        engineer()
                .post("/alerts/" + id + "/closure", new Closure("a lamp stood before the meter"))
                .expect(200);
        var alert = alert(id);
        assertThat(alert.state()).isEqualTo(AlertState.CLOSED);
        assertThat(alert.history().get(2).note()).isEqualTo("a lamp stood before the meter");
        assertThat(engineer()
                        .post("/alerts/" + id + "/closure", new Closure("again"))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("was closed at");
    }

    @Test
    void aNewBaselineOfTheHeroPutsItsMatchesInQuestionAndRaisesOneAlert() {
        matchedRoom(tinted(0.012, -0.004));
        var verdict = asLeft(studio.hero(), asAimed());
        assertThat(verdict.becameBaseline()).isTrue();
        var alerts = openAlerts();
        assertThat(alerts).as("alerts of the room: %s", alerts).hasSize(1);
        assertThat(alerts.get(0).cause()).isEqualTo(AlertCause.MATCH_IN_QUESTION);
        assertThat(alerts.get(0).subjectId()).isEqualTo(studio.hero());
        check(follower, tinted(0.012, -0.004));
        var again = run(follower, Purpose.MATCH, tinted(0.012, -0.004));
        var heroRun = run(studio.hero(), Purpose.MATCH, asAimed());
        studio.upload(again);
        studio.upload(heroRun);
        studio.signOff(follower, OPERATOR, again, heroRun);
        assertThat(openAlerts()).as("signed off anew, nothing is in question").isEmpty();
    }

    /** The hero was calibrated between two sign-offs, then the follower: each puts another match in question. */
    @Test
    void aHerosNewBaselineNamesItsFollowersAndHoldsBackTheirOwnQuestionsUntilItIsAnswered() {
        matchedRoom(tinted(0.012, -0.004));
        asLeft(studio.hero(), asAimed());
        signOff(follower, "operator B", tinted(0.012, -0.004));
        asLeft(follower, asAimed());
        var ofHero = openOn(studio.hero());
        var ofFollower = openOn(follower);
        assertThat(ofHero.followers()).singleElement().satisfies(affected -> {
            assertThat(affected.presetId()).isEqualTo(follower);
            assertThat(affected.text()).isEqualTo("in question for " + OPERATOR);
        });
        assertThat(ofFollower.headline()).contains("operator B");
        assertThat(ofFollower.heldBy()).isEqualTo(ofHero.id());
        signOff(follower, OPERATOR, tinted(0.012, -0.004));
        assertThat(openAlerts()).extracting(Alert::id).containsExactly(ofFollower.id());
        assertThat(openOn(follower).heldBy()).isNull();
    }

    private Alert openOn(UUID preset) {
        return openAlerts().stream()
                .filter(alert -> alert.subjectId().equals(preset))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no alert on " + preset + " among " + openAlerts()));
    }

    @Test
    void aNewerMatchOfTheSameOperatorTakesThePlaceOfTheOlder() {
        matchedRoom(tinted(0.012, -0.004));
        check(follower, tinted(0.021, -0.004));
        assertThat(openAlerts()).hasSize(1);
        var followerRun = run(follower, Purpose.MATCH, tinted(0.0125, -0.004));
        var heroRun = run(studio.hero(), Purpose.MATCH, asAimed());
        studio.upload(followerRun);
        studio.upload(heroRun);
        studio.signOff(follower, OPERATOR, followerRun, heroRun);
        var findings = engineer().get("/presets/" + follower + "/findings").asListOf(Finding.class);
        assertThat(findings.stream().filter(f -> f.metric() == Metric.HERO_DRIFT_WHITE))
                .as("one residual stands, by the newer agreement")
                .singleElement()
                .satisfies(finding -> assertThat(finding.value()).isLessThan(1e-9));
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void aRunTakenBeforeWarmUpIsMarkedAndCannotBecomeTheBaseline() {
        var cold = studio.run(follower, studio.instrument(), Purpose.AS_LEFT, now = now.plusSeconds(60), 12, asAimed());
        clock.advance(Duration.ofMinutes(2));
        var verdict = studio.upload(cold);
        assertThat(verdict.warmedUp()).isFalse();
        assertThat(verdict.becameBaseline()).isFalse();
        assertThat(verdict.baselineNote()).contains("before the display had warmed up");
        assertThat(engineer()
                        .post(
                                "/presets/" + follower + "/baselines",
                                new panelbook.wire.BaselineDraft(cold.id(), "no time to wait"))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("warmed up");
    }

    @Test
    void anAsLeftRunOffItsTargetRaisesAnAlertUntilACalibratorDeclaresItWithAReason() {
        var run = run(follower, Purpose.AS_LEFT, tinted(0.02, 0));
        var verdict = studio.upload(run);
        assertThat(verdict.becameBaseline()).isFalse();
        assertThat(verdict.baselineNote()).contains("does not verify").contains("white-chromaticity-error");
        assertThat(openAlerts()).extracting(Alert::cause).containsExactly(AlertCause.OFF_TARGET);
        var declared = as(panelbook.wire.Role.CALIBRATOR)
                .post(
                        "/presets/" + follower + "/baselines",
                        new panelbook.wire.BaselineDraft(run.id(), "white aimed by eye, as the operator wants it"))
                .expect(200)
                .as(RunVerdict.class);
        assertThat(declared.becameBaseline()).isTrue();
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void aMeterUsedAfterItsCertificateEndedRaisesOneAlertHoweverManyRunsItTook() {
        var meter = studio.meter(UUID.randomUUID(), unique("old meter"), now.minus(Duration.ofDays(20)));
        for (var i = 0; i < 3; i++) {
            now = now.plusSeconds(60);
            clock.advance(Duration.ofMinutes(1));
            studio.upload(studio.run(follower, meter, Purpose.CHECK, now, 60, asAimed()));
        }
        var alerts = engineer().all("/alerts?cause=certificate-expired", Alert.class).stream()
                .filter(alert -> alert.subjectId().equals(meter))
                .toList();
        assertThat(alerts).hasSize(1);
        assertThat(alerts.get(0).headline()).contains("expired on");
    }

    @Test
    void aRunThatComesLateIsKeptAndJudgedButChangesNothingThatStands() {
        matchedRoom(asAimed());
        var early = run(follower, Purpose.CHECK, dimmed(0.85));
        check(follower, asAimed());
        var verdict = studio.upload(early);
        assertThat(verdict.decision()).isEqualTo(Decision.BEYOND);
        assertThat(verdict.alerts()).isEmpty();
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void aBaselineThatComesLateTakesItsPlaceInTheOrderOfTime() {
        matchedRoom(asAimed());
        var early = run(follower, Purpose.AS_LEFT, dimmed(1.01));
        var later = run(follower, Purpose.AS_LEFT, asAimed());
        assertThat(studio.upload(later).becameBaseline()).isTrue();
        assertThat(studio.upload(early).becameBaseline()).isTrue();
        var baselines = engineer().get("/presets/" + follower + "/baselines").asListOf(panelbook.wire.Baseline.class);
        assertThat(baselines).extracting(b -> b.runId()).startsWith(later.id(), early.id());
        assertThat(baselines.get(0).to()).as("the later one is in force").isNull();
        assertThat(baselines.get(1).to()).isEqualTo(baselines.get(0).from());
    }

    @Test
    void anotherHeroEndsWhatWasJudgedAgainstTheFormerOne() {
        matchedRoom(asAimed());
        check(studio.hero(), dimmed(0.9));
        assertThat(openAlerts()).hasSize(1);
        var other = studio.display("Other hero", "oled");
        asLeft(other, asAimed());
        engineer()
                .post("/rooms/" + studio.room() + "/heroes", new panelbook.wire.HeroDraft(other, null))
                .expect(201);
        var alerts = openAlerts();
        assertThat(alerts)
                .as("the former hero still moved against its own baseline, but has no followers")
                .singleElement()
                .satisfies(alert -> assertThat(alert.followers()).isEmpty());
        assertThat(engineer().get("/presets/" + follower + "/findings").asListOf(Finding.class))
                .noneMatch(finding -> finding.matchId() != null);
    }

    @Test
    void aDisplayTakenOutOfUseTakesItsAlertsAlong() {
        matchedRoom(asAimed());
        check(follower, dimmed(0.9));
        assertThat(openAlerts()).hasSize(1);
        engineer()
                .post("/presets/" + follower + "/retirement", new panelbook.wire.Retirement("panel replaced"))
                .expect(200);
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void readinessSaysWhatKeepsARoomClosed() {
        assertThat(readiness().state()).isEqualTo(ReadinessState.NOT_READY);
        assertThat(readiness().reasons()).extracting(reason -> reason.code()).contains("no-baseline");
        matchedRoom(tinted(0.012, -0.004));
        assertThat(readiness().state())
                .as("calibrated and matched: %s", readiness().reasons())
                .isEqualTo(ReadinessState.READY);
        check(studio.hero(), dimmed(0.88));
        var closed = readiness();
        assertThat(closed.state()).isEqualTo(ReadinessState.NOT_READY);
        assertThat(closed.reasons().get(0).code()).isEqualTo("moved");
        assertThat(closed.reasons().get(0).display()).isEqualTo("Hero");
    }

    @Test
    void aBaselineOlderThanItsToleranceSetAllowsIsOverdue() {
        matchedRoom(asAimed());
        clock.advance(Duration.ofDays(62));
        assertThat(readiness().state()).isEqualTo(ReadinessState.READY_WITH_REMARKS);
        assertThat(readiness().reasons()).extracting(reason -> reason.code()).containsOnly("recalibration-due");
        now = clock.instant();
        check(follower, asAimed());
        assertThat(openAlerts()).extracting(Alert::cause).containsExactly(AlertCause.RECALIBRATION_DUE);
        asLeft(follower, asAimed());
        assertThat(openAlerts())
                .as("calibrated again: the match is in question now, but nothing is overdue")
                .extracting(Alert::cause)
                .containsExactly(AlertCause.MATCH_IN_QUESTION);
    }
}
