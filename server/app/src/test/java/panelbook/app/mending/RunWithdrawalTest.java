package panelbook.app.mending;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.sql.DriverManager;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Samples;
import panelbook.wire.AlertEventKind;
import panelbook.wire.Baseline;
import panelbook.wire.BaselineDraft;
import panelbook.wire.EotfKind;
import panelbook.wire.Match;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Role;
import panelbook.wire.Run;
import panelbook.wire.RunVerdict;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.SignalRange;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import panelbook.wire.WithdrawnRun;

/** A run that was uploaded to the wrong preset, or should not have been uploaded at all, is put right. */
class RunWithdrawalTest extends TwinRooms {

    @Test
    void aCheckUploadedToTheWrongPresetMovesToTheRightOneAndItsAlertsGoWithIt() {
        matchedRooms();
        tick();
        var run = told(mistaken.studio.run(mistaken.one, Purpose.CHECK, now, dimmed(0.85)), 1200);
        var verdict = mistaken.studio.upload(run);
        assertThat(verdict.alerts()).as("the mistake opened an alert").isNotEmpty();
        right.studio.upload(told(right.studio.run(right.other, Purpose.CHECK, now, dimmed(0.85)), 1200));

        var withdrawn = withdraw(run.id(), mistaken.other);

        bothSayTheSame("a check");
        assertThat(withdrawn.verdict()).isNotNull();
        assertThat(withdrawn.alerts())
                .extracting(notice -> notice.event())
                .as("closed where the run was not taken, opened where it was")
                .contains(AlertEventKind.CLOSED, AlertEventKind.OPENED);
    }

    @Test
    void anAsLeftRunOnTheWrongPresetGivesItsPlaceBackToTheBaselineBefore() {
        matchedRooms();
        measure(1, Purpose.CHECK, tinted(0.012, -0.004));
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, dimmed(0.99));
        assertThat(mistaken.studio.upload(run).becameBaseline()).isTrue();
        right.studio.upload(right.studio.run(right.other, Purpose.AS_LEFT, now, dimmed(0.99)));
        measure(1, Purpose.CHECK, tinted(0.013, -0.004));
        var mended = withdraw(run.id(), mistaken.other);
        bothSayTheSame("an as-left run");
        measure(1, Purpose.CHECK, tinted(0.013, -0.004));
        bothSayTheSame("an as-left run, and a check after it");

        var replacement = mended.run().withdrawn().replacedBy();
        assertThat(baselines(mistaken.other))
                .first()
                .satisfies(baseline -> assertThat(baseline.runId()).isEqualTo(replacement));
        assertThat(baselines(mistaken.one))
                .as("the history shows the baseline that was none")
                .filteredOn(baseline -> baseline.withdrawn() != null)
                .singleElement()
                .satisfies(baseline -> assertThat(baseline.runId()).isEqualTo(run.id()));
    }

    @Test
    void aHerosRunThatWasNoneOfItsOwnPutsNoMatchInQuestionAndNoFollowerBeyond() {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.hero, Purpose.AS_LEFT, now, dimmed(0.97));
        mistaken.studio.upload(run);
        measure(1, Purpose.CHECK, tinted(0.012, -0.004));
        measure(2, Purpose.CHECK, tinted(0.004, 0.002));
        withdraw(run.id(), null);
        bothSayTheSame("a hero's as-left run");
    }

    @Test
    void anAlertThatTheMistakeClosedIsOpenAgain() {
        matchedRooms();
        measure(1, Purpose.CHECK, dimmed(0.9));
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.CHECK, now, tinted(0.012, -0.004));
        assertThat(mistaken.studio.upload(run).alerts())
                .extracting(notice -> notice.event())
                .contains(AlertEventKind.CLOSED);
        withdraw(run.id(), null);
        bothSayTheSame("an alert that was closed by mistake");
    }

    @Test
    void anAlertThatLingersNearItsLimitIsOpenAgainToo() {
        for (var preset = 0; preset < 3; preset++) {
            measure(preset, Purpose.AS_LEFT, asAimed());
        }
        measure(0, Purpose.CHECK, dimmed(0.94));
        tick();
        var run = mistaken.studio.run(mistaken.hero, Purpose.CHECK, now, asAimed());
        mistaken.studio.upload(run);
        measure(0, Purpose.CHECK, dimmed(0.952));
        withdraw(run.id(), null);
        bothSayTheSame("an alert held open by what is near its limit");
    }

    @Test
    void anAlertThatOnlyTheMistakeHeldOpenIsClosedThoughItsFigureIsNearTheLimit() {
        for (var preset = 0; preset < 3; preset++) {
            measure(preset, Purpose.AS_LEFT, asAimed());
        }
        tick();
        var run = mistaken.studio.run(mistaken.hero, Purpose.CHECK, now, dimmed(0.9));
        mistaken.studio.upload(run);
        measure(0, Purpose.CHECK, dimmed(0.952));
        withdraw(run.id(), null);
        bothSayTheSame("an alert that should never have been");
    }

    @Test
    void theOnlyRunOfAPresetLeavesItAsIfItHadNeverBeenMeasured() {
        measure(0, Purpose.AS_LEFT, asAimed());
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, dimmed(0.7));
        mistaken.studio.upload(run);
        withdraw(run.id(), null);
        bothSayTheSame("the only run");
    }

    @Test
    void theMeterIsJudgedByItsLastUseThatCounts() {
        matchedRooms();
        var expired = new UUID[2];
        inBoth((twin, at) -> {
            var meter = twin.studio.meter(
                    UUID.randomUUID(), twin.studio.name() + " old meter", at.minusSeconds(86_400L * 40));
            expired[twin == mistaken ? 0 : 1] = meter;
        });
        tick();
        var run = mistaken.studio.run(mistaken.one, expired[0], Purpose.CHECK, now, 60, tinted(0.012, -0.004));
        assertThat(mistaken.studio.upload(run).alerts()).isNotEmpty();
        withdraw(run.id(), null);
        bothSayTheSame("a meter that was not used");
    }

    @Test
    void aReasonThatAPersonGaveForTheBaselineGoesAlong() {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, dimmed(0.8));
        mistaken.studio.upload(run);
        var other = right.studio.run(right.other, Purpose.AS_LEFT, now, dimmed(0.8));
        right.studio.upload(other);
        tick();
        declare(mistaken.one, run.id());
        declare(right.other, other.id());
        withdraw(run.id(), mistaken.other);
        bothSayTheSame("a declared baseline");
    }

    private void declare(UUID preset, UUID run) {
        engineer()
                .post("/presets/" + preset + "/baselines", new BaselineDraft(run, "the client asked for it"))
                .expect(200);
    }

    @Test
    void aMatchThatClosedWithAWithdrawnRunIsInQuestionAndNothingIsJudgedAgainstIt() {
        matchedRooms();
        var match = sign(mistaken, clockTick(), 1, "operator B", tinted(0.02, 0));
        withdraw(match.followerRunId(), null);

        var now = engineer().get("/matches/" + match.id()).as(Match.class);
        assertThat(now.inQuestion()).contains("the closing run of the follower was withdrawn");
        assertThat(now.withdrawn()).isNull();
        assertThat(Picture.of(engineer(), mistaken.studio).findings())
                .noneMatch(finding -> finding.contains("Matched for operator B"));
        assertThat(Picture.of(engineer(), mistaken.studio).alerts())
                .anyMatch(alert -> alert.contains("match-in-question") && alert.contains("a run that was withdrawn"));
    }

    private Instant clockTick() {
        tick();
        return now;
    }

    @Test
    void bothRunsStayInTheBookAndSayWhatBecameOfThem() {
        matchedRooms();
        tick();
        var run = told(mistaken.studio.run(mistaken.one, Purpose.CHECK, now, dimmed(0.99)), 40);
        var first = mistaken.studio.upload(run);
        var mended = withdraw(run.id(), mistaken.other);
        var old = engineer().get("/runs/" + run.id()).as(Run.class);
        assertThat(old.withdrawn().reason()).isEqualTo("it was uploaded to the wrong preset");
        assertThat(old.withdrawn().at()).isEqualTo(now);
        assertThat(engineer().all("/runs?preset=" + mistaken.one, Run.class))
                .as("lists show it, marked")
                .anyMatch(shown -> shown.id().equals(run.id()) && shown.withdrawn() != null);
        assertThat(engineer().get("/runs/" + run.id() + "/verdict").as(RunVerdict.class))
                .isEqualTo(first);
        assertThat(engineer().all("/runs/" + run.id() + "/readings", ReadingEntry.class))
                .isEqualTo(run.readings())
                .isEqualTo(engineer().all("/runs/" + old.withdrawn().replacedBy() + "/readings", ReadingEntry.class));
        assertThat(engineer()
                        .get("/runs/" + old.withdrawn().replacedBy() + "/verdict")
                        .as(RunVerdict.class))
                .isEqualTo(mended.verdict());
    }

    @Test
    void aRepeatChangesNothingAndGetsTheFirstAnswer() {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, dimmed(0.99));
        mistaken.studio.upload(run);
        var first = withdraw(run.id(), mistaken.other);
        var before = Picture.of(engineer(), mistaken.studio);
        tick();
        var again = engineer()
                .post("/runs/" + run.id() + "/withdrawal", new RunWithdrawalDraft("again", mistaken.other))
                .expect(200)
                .as(WithdrawnRun.class);
        assertThat(again).isEqualTo(first);
        assertThat(engineer()
                        .post("/runs", again(run, first.run().withdrawn().replacedBy(), mistaken.other))
                        .expect(200)
                        .as(RunVerdict.class))
                .as("the same readings under the new id are the same run")
                .isEqualTo(first.verdict());
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);
    }

    @Test
    void aRunThatStandsOnTheRightPresetAlreadyIsNotEnteredTwice() {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.CHECK, now, dimmed(0.99));
        mistaken.studio.upload(run);
        var byHand = again(run, UUID.randomUUID(), mistaken.other);
        mistaken.studio.upload(byHand);
        right.studio.upload(right.studio.run(right.other, Purpose.CHECK, now, dimmed(0.99)));
        assertThat(withdraw(run.id(), mistaken.other).run().withdrawn().replacedBy())
                .isEqualTo(byHand.id());
        bothSayTheSame("a run that somebody had uploaded again");
    }

    @Test
    void aWithdrawnRunIsNotDeclaredTheBaseline() {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, asAimed());
        mistaken.studio.upload(run);
        withdraw(run.id(), null);
        var before = Picture.of(engineer(), mistaken.studio);
        assertThat(engineer()
                        .post("/presets/" + mistaken.one + "/baselines", new BaselineDraft(run.id(), "all the same"))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("was withdrawn");
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);
    }

    @Test
    void whatIsRefusedSaysWhyAndChangesNothing() {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.CHECK, now, dimmed(0.85));
        mistaken.studio.upload(run);
        var full = new Samples(engineer());
        var eightBit = engineer()
                .post(
                        "/targets",
                        new TargetDraft(
                                UUID.randomUUID(),
                                unique("8 bit"),
                                Samples.BT2020,
                                EotfKind.PQ,
                                null,
                                SignalRange.FULL,
                                8,
                                1000,
                                0.0005,
                                Samples.HDR_GRADING))
                .expect(201)
                .as(Target.class);
        var coarse = full.preset(
                full.display(mistaken.studio.facility(), mistaken.studio.room()).id(), eightBit.id());
        var before = Picture.of(engineer(), mistaken.studio);
        var path = "/runs/" + run.id() + "/withdrawal";
        assertThat(engineer()
                        .post(path, new RunWithdrawalDraft("mistake", coarse.id()))
                        .expect(400)
                        .problem()
                        .detail())
                .contains("was not taken for the target of")
                .contains("code value");
        engineer()
                .post(path, new RunWithdrawalDraft("mistake", UUID.randomUUID()))
                .expect(400);
        engineer().post(path, new RunWithdrawalDraft("mistake", mistaken.one)).expect(400);
        engineer().post(path, new RunWithdrawalDraft(" ", null)).expect(400);
        as(Role.PROBE).post(path, new RunWithdrawalDraft("mistake", null)).expect(403);
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);

        withdraw(run.id(), null);
        assertThat(engineer()
                        .post(path, new RunWithdrawalDraft("mistake", mistaken.other))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("was withdrawn by");
        engineer()
                .post("/presets/" + mistaken.one + "/baselines", new BaselineDraft(run.id(), "all the same"))
                .expect(409);
        var draft = mistaken.studio.signOffDraft(
                mistaken.one,
                "operator A",
                run.id(),
                mistaken.studio
                        .run(mistaken.hero, Purpose.MATCH, now, asAimed())
                        .id(),
                List.of());
        engineer().post("/matches", draft).expect(400);
    }

    @Test
    void rivalsWhoWithdrawOneRunAtOnceWithdrawItOnce() throws Exception {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, dimmed(0.99));
        mistaken.studio.upload(run);
        right.studio.upload(right.studio.run(right.other, Purpose.AS_LEFT, now, dimmed(0.99)));
        var service = engineer();
        var draft = new RunWithdrawalDraft("it was uploaded to the wrong preset", mistaken.other);
        var pool = Executors.newFixedThreadPool(4);
        try {
            Callable<Answer> request = () -> service.post("/runs/" + run.id() + "/withdrawal", draft);
            var answers = pool.invokeAll(Collections.nCopies(4, request));
            var statuses = new ArrayList<Integer>();
            var bodies = new HashSet<WithdrawnRun>();
            for (var answer : answers) {
                statuses.add(answer.get().status());
                bodies.add(answer.get().as(WithdrawnRun.class));
            }
            assertThat(statuses).containsExactlyInAnyOrder(201, 200, 200, 200);
            assertThat(bodies).as("all get the one answer").hasSize(1);
        } finally {
            pool.shutdownNow();
        }
        bothSayTheSame("four at once");
    }

    /** History holds even against the role that owns the tables. */
    @Test
    void aWithdrawalIsNeitherChangedNorTakenBackAndABaselineIsWithdrawnOnce() throws Exception {
        matchedRooms();
        tick();
        var run = mistaken.studio.run(mistaken.one, Purpose.AS_LEFT, now, dimmed(0.99));
        mistaken.studio.upload(run);
        withdraw(run.id(), mistaken.other);
        for (var statement : List.of(
                "update run_withdrawal set reason = 'none'",
                "delete from run_withdrawal",
                "truncate mending_answer",
                "update baseline set withdrawn_because = 'none' where withdrawn_at is not null",
                "update baseline set withdrawn_at = null, withdrawn_by = null, withdrawn_because = null"
                        + " where withdrawn_at is not null",
                "update baseline set reason = 'none'",
                "delete from baseline")) {
            try (var connection =
                            DriverManager.getConnection(DATABASE.jdbcUrl(), DATABASE.username(), DATABASE.password());
                    var sql = connection.createStatement()) {
                assertThatThrownBy(() -> sql.execute(statement)).as(statement).hasMessageContaining("is history");
            }
        }
    }

    /** A hundred minutes of a room, with a run somewhere in between that went to the wrong preset or was none. */
    @ParameterizedTest
    @ValueSource(longs = {2, 9, 14, 16, 17, 32, 35, 39})
    void whereverAMistakeFallsAndWheneverItIsPutRightTheBookIsTheSame(long seed) {
        var random = new Random(seed);
        matchedRooms();
        var at = random.nextInt(4);
        var mend = at + 1 + random.nextInt(3);
        UUID mistake = null;
        UUID onto = null;
        for (var step = 0; step < 8; step++) {
            if (step == at) {
                var wrong = random.nextInt(3);
                var meant = (wrong + 1 + random.nextInt(2)) % 3;
                var moves = random.nextBoolean();
                var purpose = random.nextBoolean() ? Purpose.AS_LEFT : Purpose.CHECK;
                var bend = dimmed(0.9 + 0.1 * random.nextDouble());
                tick();
                var run = mistaken.studio.run(mistaken.preset(wrong), purpose, now, bend);
                mistaken.studio.upload(run);
                mistake = run.id();
                if (moves) {
                    onto = mistaken.preset(meant);
                    right.studio.upload(right.studio.run(right.preset(meant), purpose, now, bend));
                }
            }
            if (step == mend) {
                withdraw(mistake, onto);
                bothSayTheSame("seed " + seed + ", at once");
            }
            something(random);
        }
        bothSayTheSame("seed " + seed + ", later");
    }

    private void something(Random random) {
        var preset = random.nextInt(3);
        var factor = 0.9 + 0.11 * random.nextDouble();
        switch (random.nextInt(5)) {
            case 0 -> measure(preset, Purpose.AS_LEFT, dimmed(0.97 + 0.03 * random.nextDouble()));
            case 1 -> signOff(1 + random.nextInt(2), "operator " + random.nextInt(2), dimmed(factor));
            case 2 -> part(preset, factor);
            default -> measure(preset, Purpose.CHECK, dimmed(factor));
        }
    }

    /** A check of the dark half alone. */
    private void part(int preset, double factor) {
        inBoth((twin, at) -> {
            var run = twin.studio.run(twin.preset(preset), Purpose.CHECK, at, dimmed(factor));
            twin.studio.upload(
                    again(run, run.id(), run.presetId(), run.readings().subList(0, 6)));
        });
    }

    private List<Baseline> baselines(UUID preset) {
        return engineer().get("/presets/" + preset + "/baselines").asListOf(Baseline.class);
    }
}
