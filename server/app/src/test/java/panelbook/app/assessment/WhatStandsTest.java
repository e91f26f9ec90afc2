package panelbook.app.assessment;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEventKind;
import panelbook.wire.BaselineDraft;
import panelbook.wire.Basis;
import panelbook.wire.CertificateDraft;
import panelbook.wire.Closure;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.HeroDraft;
import panelbook.wire.Metric;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.Retirement;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;

/** What was found stays found until something measured, or a person, says otherwise. */
class WhatStandsTest extends RoomTest {

    @Autowired
    private Sweep sweep;

    @Test
    void aRunWithoutWhiteDoesNotCloseTheAlertThatWhiteOpened() {
        asLeft(follower, asAimed());
        check(follower, dimmed(0.88));
        var darkPatches = part(run(follower, Purpose.CHECK, asAimed()), 0, 3);
        assertThat(studio.upload(darkPatches).alerts()).noneMatch(notice -> notice.event() == AlertEventKind.CLOSED);
        assertThat(openAlerts()).as("nobody has seen white come back").hasSize(1);
        check(follower, asAimed());
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void aMatchedFollowerHasNotMovedBecauseItsHeroWasCalibratedAnew() {
        matchedRoom(tinted(0.012, -0.004));
        asLeft(studio.hero(), asAimed());
        check(follower, tinted(0.012, -0.004));
        assertThat(openAlerts())
                .as("the match is in question; the follower stands as it was signed off")
                .extracting(Alert::cause)
                .containsExactly(AlertCause.MATCH_IN_QUESTION);
    }

    @Test
    void aMatchedFollowerHasNotMovedBecauseAnotherDisplayBecameTheHero() {
        matchedRoom(tinted(0.012, -0.004));
        var other = studio.display("Other hero", "oled");
        asLeft(other, asAimed());
        engineer()
                .post("/rooms/" + studio.room() + "/heroes", new HeroDraft(other, null))
                .expect(201);
        check(follower, tinted(0.012, -0.004));
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void aHeroThatLeavesTakesTheResidualsAgainstItAlong() {
        matchedRoom(asAimed());
        check(studio.hero(), dimmed(0.9));
        assertThat(standing(follower)).anyMatch(finding -> finding.matchId() != null);
        var display =
                engineer().get("/presets/" + studio.hero()).as(Preset.class).displayId();
        clock.advance(Duration.ofMinutes(1));
        engineer()
                .post(
                        "/displays/" + display + "/moves",
                        new panelbook.wire.MoveDraft(UUID.randomUUID(), null, null, "to the workshop"))
                .expect(200);
        assertThat(standing(follower)).noneMatch(finding -> finding.matchId() != null);
        assertThat(readiness().reasons())
                .as("it stands alone now and is as it was left")
                .isEmpty();
    }

    @Test
    void aHeroThatIsRetiredTakesTheResidualsAgainstItAlong() {
        matchedRoom(asAimed());
        check(studio.hero(), dimmed(0.9));
        engineer()
                .post("/presets/" + studio.hero() + "/retirement", new Retirement("panel replaced"))
                .expect(200);
        assertThat(standing(follower)).noneMatch(finding -> finding.matchId() != null);
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void anAsLeftRunThatComesLateDoesNotQuestionTheMatchThatWasMadeAfterIt() {
        asLeft(studio.hero(), asAimed());
        asLeft(follower, asAimed());
        var spooled = run(follower, Purpose.AS_LEFT, dimmed(1.005));
        signOff(follower, OPERATOR, tinted(0.012, -0.004));
        assertThat(studio.upload(spooled).becameBaseline()).isTrue();
        assertThat(openAlerts()).isEmpty();
    }

    @Test
    void anAsLeftRunThatFailsIsOneCauseNotTwo() {
        asLeft(follower, asAimed());
        asLeft(follower, tinted(0.02, 0));
        assertThat(openAlerts()).extracting(Alert::cause).containsExactly(AlertCause.OFF_TARGET);
    }

    @Test
    void anAsLeftRunWithoutWhiteIsNoBaselineUnlessAPersonSaysSo() {
        var dark = part(run(follower, Purpose.AS_LEFT, asAimed()), 0, 3);
        var verdict = studio.upload(dark);
        assertThat(verdict.becameBaseline()).isFalse();
        assertThat(verdict.baselineNote()).contains("Measure white");
        engineer()
                .post("/presets/" + follower + "/baselines", new BaselineDraft(dark.id(), "only black was asked for"))
                .expect(200);
    }

    @Test
    void aRunTakenColdNeitherOpensNorClosesAnAlert() {
        matchedRoom(asAimed());
        var cold = studio.run(follower, studio.instrument(), Purpose.CHECK, tick(), 5, dimmed(0.88));
        var verdict = studio.upload(cold);
        assertThat(verdict.warmedUp()).isFalse();
        assertThat(verdict.baselineNote()).contains("neither opens nor closes an alert");
        assertThat(verdict.decision()).as("it is judged and said").isEqualTo(Decision.BEYOND);
        assertThat(openAlerts()).as("but shows a cold panel").isEmpty();
        check(follower, dimmed(0.88));
        studio.upload(studio.run(follower, studio.instrument(), Purpose.CHECK, tick(), 5, asAimed()));
        assertThat(openAlerts()).hasSize(1);
    }

    @Test
    void anAlertThatAPersonClosedOpensAgainOnlyWithANewRunOfThatDisplay() {
        matchedRoom(asAimed());
        check(follower, dimmed(0.88));
        close(openAlerts().get(0), "a lamp stood before the meter");
        check(studio.hero(), asAimed());
        assertThat(openAlerts())
                .as("the hero's run says nothing new of the follower")
                .isEmpty();
        check(follower, dimmed(0.88));
        assertThat(openAlerts()).as("measured again").hasSize(1);
    }

    @Test
    void aQuestionableMatchThatAPersonLeavesAsItIsIsNotBroughtUpByEachCheck() {
        matchedRoom(asAimed());
        asLeft(studio.hero(), asAimed());
        close(openAlerts().get(0), "the colourist looks at it on Friday");
        check(studio.hero(), asAimed());
        assertThat(openAlerts()).isEmpty();
        asLeft(studio.hero(), asAimed());
        assertThat(openAlerts()).as("another new baseline").hasSize(1);
    }

    @Test
    void aCertificateIsJudgedByTheDayOfUse() {
        var meter = studio.meter(UUID.randomUUID(), unique("meter"), now.minus(Duration.ofDays(20)));
        clock.advance(Duration.ofDays(30));
        var used = now.plus(Duration.ofDays(2));
        var today = clock.instant().atOffset(ZoneOffset.UTC).toLocalDate();
        certify(meter, today.minusDays(5), today.plusYears(1));
        var verdict = studio.upload(studio.run(follower, meter, Purpose.CHECK, used, 60, asAimed()));
        assertThat(residual(verdict, Metric.CERTIFICATE_DAYS).decision())
                .as("the new certificate was not issued yet when it was used")
                .isEqualTo(Decision.BEYOND);
        now = clock.instant();
    }

    @Test
    void anEarlierRunOfAMeterDoesNotCloseTheAlertOnItsLastUse() {
        var meter = studio.meter(UUID.randomUUID(), unique("meter"), now.plus(Duration.ofDays(2)));
        clock.advance(Duration.ofDays(10));
        studio.upload(studio.run(follower, meter, Purpose.CHECK, now.plus(Duration.ofDays(9)), 60, asAimed()));
        assertThat(certificateAlerts(meter)).hasSize(1);
        studio.upload(studio.run(studio.hero(), meter, Purpose.CHECK, now.plus(Duration.ofDays(1)), 60, asAimed()));
        assertThat(certificateAlerts(meter)).hasSize(1);
        now = clock.instant();
    }

    @Test
    void editedLimitsAreAppliedOnceToAMatchedFollowerAndThenItRests() {
        matchedRoom(tinted(0.012, -0.004));
        judgeBy(looseSet(List.of(
                limit(Metric.DELTA_E_ITP_MAX, 40),
                limit(Metric.OWN_DRIFT_WHITE, 0.02),
                limit(Metric.HERO_DRIFT_WHITE, 0.02))));
        sweep.run();
        var once = standing(follower);
        assertThat(once)
                .extracting(Finding::metric)
                .containsExactlyInAnyOrder(Metric.DELTA_E_ITP_MAX, Metric.OWN_DRIFT_WHITE, Metric.HERO_DRIFT_WHITE);
        assertThat(once).extracting(Finding::toleranceSet).containsOnly("loose of " + studio.name());
        sweep.run();
        assertThat(standing(follower)).as("nothing is left to judge").isEqualTo(once);
    }

    @Test
    void anEditedAimHoldsForWhatWasMeasuredBefore() {
        asLeft(studio.hero(), asAimed());
        editTarget(t -> new TargetDraft(
                t.id(),
                t.name(),
                t.primaries(),
                t.eotf(),
                t.gamma(),
                t.signalRange(),
                t.bitDepth(),
                600,
                t.blackLuminance(),
                t.toleranceSetId()));
        sweep.run();
        assertThat(openAlerts()).extracting(Alert::cause).containsExactly(AlertCause.OFF_TARGET);
        var once = standing(studio.hero());
        sweep.run();
        assertThat(standing(studio.hero())).isEqualTo(once);
    }

    @Test
    void aResidualToAnotherOperatorsMatchIsNoReasonAgainstTheRoom() {
        matchedRoom(tinted(0.012, -0.004));
        signOff(follower, "operator B", tinted(0.003, 0.006));
        assertThat(readiness().reasons()).isEmpty();
        assertThat(readiness().state()).isEqualTo(ReadinessState.READY);
    }

    @Test
    void aDisplayThatStandsAloneNeedsNoHero() {
        var room = new panelbook.app.testing.Samples(engineer())
                .room(studio.facility())
                .id();
        var display = engineer().get("/presets/" + follower).as(Preset.class).displayId();
        asLeft(follower, asAimed());
        engineer()
                .post(
                        "/displays/" + display + "/moves",
                        new panelbook.wire.MoveDraft(UUID.randomUUID(), room, null, "alone"))
                .expect(200);
        var readiness = engineer().get("/rooms/" + room + "/readiness").as(panelbook.wire.RoomReadiness.class);
        assertThat(readiness.reasons()).extracting(Reason::text).isEmpty();
    }

    @Test
    void aRunFromBeforeARetirementIsStillTakenIn() {
        var spooled = run(follower, Purpose.CHECK, dimmed(0.5));
        clock.advance(Duration.ofHours(1));
        engineer()
                .post("/presets/" + follower + "/retirement", new Retirement("panel replaced"))
                .expect(200);
        assertThat(studio.upload(spooled).alerts())
                .as("nobody needs to act on it")
                .isEmpty();
        assertThat(openAlerts()).isEmpty();
        now = clock.instant();
        engineer().post("/runs", run(follower, Purpose.CHECK, asAimed())).expect(400);
    }

    @Test
    void textThatTheBookCannotKeepIsNamedByItsPlace() {
        matchedRoom(asAimed());
        check(follower, dimmed(0.88));
        var alert = "/alerts/" + openAlerts().get(0).id();
        assertThat(engineer()
                        .post(alert + "/closure", new Closure("a\0b"))
                        .expect(400)
                        .text())
                .contains("/reason");
        assertThat(engineer()
                        .post(alert + "/acknowledgement", new Acknowledgement("a\0b"))
                        .expect(400)
                        .text())
                .contains("/note");
        assertThat(engineer()
                        .post("/presets/" + follower + "/baselines", new BaselineDraft(UUID.randomUUID(), "a\0b"))
                        .expect(400)
                        .text())
                .contains("/reason");
    }

    /** Namings of heroes and runs that raise alerts touch the same rooms; neither may break the other off. */
    @Test
    void runsAndNamingsOfHeroesInOneRoomAtOnceAllGetThrough() throws Exception {
        var other = studio.display("Other hero", "oled");
        asLeft(studio.hero(), asAimed());
        asLeft(other, asAimed());
        asLeft(follower, asAimed());
        var service = engineer();
        var work = new ArrayList<Callable<Integer>>();
        for (var i = 0; i < 8; i++) {
            var run = run(i % 2 == 0 ? follower : other, Purpose.CHECK, dimmed(i % 4 < 2 ? 0.8 : 1));
            var hero = new HeroDraft(i % 2 == 0 ? other : studio.hero(), null);
            work.add(() -> service.post("/runs", run).status());
            work.add(() ->
                    service.post("/rooms/" + studio.room() + "/heroes", hero).status());
        }
        var pool = Executors.newFixedThreadPool(4);
        try {
            for (var answer : pool.invokeAll(work)) {
                assertThat(answer.get()).isIn(200, 201, 409);
            }
            assertThat(pool.invokeAll(
                            work.stream().filter(w -> work.indexOf(w) % 2 == 0).toList()))
                    .as("each run is in the book already")
                    .allSatisfy(answer -> assertThat(answer.get()).isEqualTo(200));
        } finally {
            pool.shutdownNow();
        }
    }

    private java.time.Instant tick() {
        clock.advance(Duration.ofMinutes(10));
        now = now.plusSeconds(600);
        return now;
    }

    private void close(Alert alert, String reason) {
        engineer()
                .post("/alerts/" + alert.id() + "/closure", new Closure(reason))
                .expect(200);
    }

    private void certify(UUID meter, LocalDate from, LocalDate to) {
        engineer()
                .post(
                        "/instruments/" + meter + "/certificates",
                        new CertificateDraft(UUID.randomUUID(), "C-2", from, to))
                .expect(201);
    }

    private List<Alert> certificateAlerts(UUID meter) {
        return engineer().all("/alerts?cause=certificate-expired", Alert.class).stream()
                .filter(alert -> alert.subjectId().equals(meter))
                .toList();
    }

    private static Tolerance limit(Metric metric, double value) {
        return new Tolerance(metric, value, Basis.HOUSE_POLICY, null, null, null);
    }

    private UUID looseSet(List<Tolerance> limits) {
        var draft = new ToleranceSetDraft(
                UUID.randomUUID(), "loose of " + studio.name(), "three limits", 0, null, null, 0.1, 0.95, limits);
        return engineer()
                .post("/tolerance-sets", draft)
                .expect(201)
                .as(ToleranceSet.class)
                .id();
    }

    private void judgeBy(UUID toleranceSet) {
        editTarget(t -> new TargetDraft(
                t.id(),
                t.name(),
                t.primaries(),
                t.eotf(),
                t.gamma(),
                t.signalRange(),
                t.bitDepth(),
                t.peakLuminance(),
                t.blackLuminance(),
                toleranceSet));
    }

    private void editTarget(java.util.function.Function<Target, TargetDraft> edit) {
        var there = engineer().get("/targets/" + studio.target());
        engineer()
                .put("/targets/" + studio.target(), edit.apply(there.as(Target.class)), there.etag())
                .expect(200);
    }
}
