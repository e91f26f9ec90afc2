package panelbook.app.assessment;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.function.IntFunction;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
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
import panelbook.wire.Reason;
import panelbook.wire.RoomReadiness;
import panelbook.wire.Rule;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.RunWithdrawalDraft;

/** A display that is checked week by week steps, alone or with others: who is told what, once. */
class StepsTest extends ServiceTest {

    private static final Duration WEEK = Duration.ofDays(7);

    private Studio studio;
    private Random noise;
    private Instant first;

    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("studio"));
        noise = new Random(17);
        // measured in the past, so that the clock that all tests share stays where it is
        first = clock.advance(Duration.ofHours(1)).minus(WEEK.multipliedBy(40));
    }

    /** Run 0 is the calibration, the others are weekly checks; ageing by a tenth of a per cent a week and the meter's scatter. */
    private RunUpload week(UUID preset, UUID meter, int week, UnaryOperator<XYZ> bend) {
        var taken = first.plus(WEEK.multipliedBy(week));
        var ageing = dimmed(Math.exp(-0.001 * week + 0.001 * noise.nextGaussian()));
        var run = studio.run(
                preset,
                meter,
                week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                taken,
                60,
                xyz -> ageing.apply(bend.apply(xyz)));
        return Studio.atPanelHours(run, 1000 + 50 * week);
    }

    private List<RunUpload> weeks(UUID preset, int from, int to, IntFunction<UnaryOperator<XYZ>> bend) {
        return java.util.stream.IntStream.range(from, to)
                .mapToObj(week -> {
                    var run = week(preset, studio.instrument(), week, bend.apply(week));
                    studio.upload(run);
                    return run;
                })
                .toList();
    }

    private static IntFunction<UnaryOperator<XYZ>> from(int week, UnaryOperator<XYZ> bend) {
        return w -> w >= week ? bend : asAimed();
    }

    private static IntFunction<UnaryOperator<XYZ>> never() {
        return week -> asAimed();
    }

    @Test
    void aHeroThatSteppedAfterADozenChecksIsOneAlertWithTheRunsAroundItsStep() {
        var follower = studio.display("Follower", "lcd");
        studio.upload(week(studio.hero(), studio.instrument(), 0, asAimed()));
        studio.upload(week(follower, studio.instrument(), 0, asAimed()));
        var heroRun = studio.run(studio.hero(), Purpose.MATCH, first.plusSeconds(600), asAimed());
        var followerRun = studio.run(follower, Purpose.MATCH, first.plusSeconds(600), tinted(0.004, -0.002));
        studio.upload(Studio.atPanelHours(heroRun, 1000));
        studio.upload(Studio.atPanelHours(followerRun, 1000));
        studio.signOff(follower, "operator A", followerRun, heroRun);
        for (var week = 1; week < 16; week++) {
            studio.upload(week(follower, studio.instrument(), week, tinted(0.004, -0.002)));
            studio.upload(week(studio.hero(), studio.instrument(), week, week < 13 ? asAimed() : dimmed(0.92)));
        }

        var speaking = speaking();
        assertThat(speaking).as("alerts that speak").hasSize(1);
        var alert = whole(speaking.get(0));
        assertThat(alert.cause()).isEqualTo(AlertCause.STEPPED);
        assertThat(alert.subjectId()).isEqualTo(studio.hero());
        assertThat(alert.headline())
                .containsPattern("^The hero stepped. Peak luminance stepped by −[78]\\.\\d %")
                .contains("between the runs of " + day(12) + " and " + day(13) + " (1600 and 1650 panel hours)")
                .contains("Nothing else in the room stepped so then (Follower/User 1)")
                .contains("Followers matched to it: " + studio.name() + "/Grading 1/Follower/User 1.");
        assertThat(alert.followers()).extracting(f -> f.presetId()).containsExactly(follower);
        assertThat(alert.holds())
                .as("what it explains")
                .extracting(h -> h.cause())
                .contains(AlertCause.MOVED);
        var finding = alert.findings().get(0);
        assertThat(finding.metric()).isEqualTo(Metric.STEP_LUMINANCE);
        assertThat(finding.value()).isBetween(7.5, 8.5);
        assertThat(finding.uncertainty()).isBetween(0.05, 0.4);
    }

    @Test
    void aLargeStepIsToldByTheSecondRunAfterItAndItsFindingRestsOnTheRunsAroundIt() {
        var runs = weeks(studio.hero(), 0, 12, never());
        var one = studio.upload(week(studio.hero(), studio.instrument(), 12, dimmed(0.9)));
        var second = week(studio.hero(), studio.instrument(), 13, dimmed(0.9));
        var other = studio.upload(second);

        assertThat(steps(one)).as("after one run, which may be wild").isEmpty();
        var finding = steps(other).get(0);
        assertThat(finding.decision()).isEqualTo(Decision.BEYOND);
        assertThat(finding.readings().get(0).runId()).isEqualTo(runs.get(11).id());
        assertThat(finding.readings().get(1).runId()).isNotEqualTo(second.id());
        assertThat(stepped(other.alerts())).hasSize(1);
    }

    @Test
    void oneWildRunIsNoStep() {
        weeks(studio.hero(), 0, 16, week -> week == 11 ? dimmed(0.8) : asAimed());
        assertThat(open(AlertCause.STEPPED)).isEmpty();
    }

    @Test
    void slowAgeingIsNoStep() {
        weeks(studio.hero(), 0, 30, week -> dimmed(Math.exp(-Math.pow(week / 2000.0, 0.7))));
        assertThat(open(AlertCause.STEPPED)).isEmpty();
    }

    @Test
    void withFewerThanEightRunsThereIsNoStepToBeTold() {
        weeks(studio.hero(), 0, 7, from(5, dimmed(0.9)));
        assertThat(open(AlertCause.STEPPED)).isEmpty();
    }

    @Test
    void aStepOfWhiteIsTold() {
        weeks(studio.hero(), 0, 14, from(11, tinted(0.006, -0.003)));
        var alert = whole(open(AlertCause.STEPPED).get(0));
        assertThat(alert.findings()).extracting(Finding::metric).containsExactly(Metric.STEP_WHITE);
        assertThat(alert.headline()).contains("White stepped by Δu′ +0.0060, Δv′ −0.0030");
    }

    @Test
    void theSameStepOnAllDisplaysOfARoomIsOneAlertOnTheRoom() {
        var followers = List.of(studio.display("Left", "oled"), studio.display("Right", "oled"));
        var all = List.of(studio.hero(), followers.get(0), followers.get(1));
        for (var week = 0; week < 15; week++) {
            for (var preset : all) {
                studio.upload(week(preset, studio.instrument(), week, week < 12 ? asAimed() : dimmed(1.045)));
            }
        }

        assertThat(speaking())
                .extracting(Alert::subjectId)
                .as("who is said to be at fault")
                .containsExactly(studio.room());
        var alert = whole(speaking().get(0));
        assertThat(alert.subject()).isEqualTo(studio.name() + "/Grading 1");
        assertThat(alert.followers()).extracting(f -> f.presetId()).containsExactlyInAnyOrderElementsOf(all);
        assertThat(alert.headline())
                .containsPattern("^All 3 displays that tell stepped alike: peak luminance by \\+4\\.\\d %")
                .contains("points at the feed or the meter");
        assertThat(woken()).as("alerts that ever woke somebody").hasSize(1);
    }

    @Test
    void theSameStepOnAllThatAMeterMeasuredInTwoRoomsIsOneAlertOnTheMeter() {
        var elsewhere = new Studio(engineer(), unique("studio"));
        for (var week = 0; week < 15; week++) {
            var bend = week < 12 ? asAimed() : dimmed(1.06);
            studio.upload(week(studio.hero(), studio.instrument(), week, bend));
            studio.upload(week(elsewhere.hero(), studio.instrument(), week, bend));
        }

        var alert = engineer().get("/alerts?cause=stepped&limit=500").asPageOf(Alert.class).items().stream()
                .filter(a -> a.subjectId().equals(studio.instrument()))
                .toList();
        assertThat(alert).as("alerts on the meter").hasSize(1);
        assertThat(alert.get(0).headline())
                .startsWith("Every display that " + studio.name()
                        + " meter measured on both sides stepped alike, 2 displays")
                .contains("points at the meter, not at the displays");
        assertThat(speaking()).as("alerts in the room that speak").isEmpty();
        assertThat(open(AlertCause.STEPPED))
                .allSatisfy(held -> assertThat(held.heldBy())
                        .as("what holds back %s", held.headline())
                        .isEqualTo(alert.get(0).id()));
    }

    @Test
    void aStepWhereTheMeterChangedIsLaidAtTheTwoMeters() {
        var other = studio.meter(UUID.randomUUID(), studio.name() + " second", Instant.parse("2036-01-01T00:00:00Z"));
        var verdict = (RunVerdict) null;
        for (var week = 0; week < 14; week++) {
            var meter = week < 11 ? studio.instrument() : other;
            verdict = studio.upload(week(studio.hero(), meter, week, week < 11 ? asAimed() : dimmed(1.12)));
        }

        assertThat(steps(verdict).get(0).explanation())
                .contains("since " + studio.name() + " second (run of " + day(11) + ") took over from " + studio.name()
                        + " meter (run of " + day(10) + ")")
                .contains("points at the two meters, not at the display");
        assertThat(open(AlertCause.STEPPED)).as("alerts on the display").isEmpty();
        assertThat(about(other)).as("alerts on the meter").hasSize(1);
    }

    @Test
    void anotherMeterThatReadsWithinWhatBothMayErrByIsNoStep() {
        var other = studio.meter(UUID.randomUUID(), studio.name() + " second", Instant.parse("2036-01-01T00:00:00Z"));
        for (var week = 0; week < 14; week++) {
            studio.upload(week(
                    studio.hero(),
                    week < 11 ? studio.instrument() : other,
                    week,
                    week < 11 ? asAimed() : dimmed(1.03)));
        }
        assertThat(open(AlertCause.STEPPED)).isEmpty();
        assertThat(about(other)).isEmpty();
    }

    @Test
    void aStepBackEndsTheAlert() {
        weeks(studio.hero(), 0, 14, from(11, dimmed(0.93)));
        assertThat(open(AlertCause.STEPPED)).hasSize(1);
        weeks(studio.hero(), 14, 17, never());
        assertThat(open(AlertCause.STEPPED)).isEmpty();
    }

    @Test
    void aNewBaselineEndsTheAlert() {
        weeks(studio.hero(), 0, 14, from(11, dimmed(0.93)));
        studio.upload(Studio.atPanelHours(
                studio.run(studio.hero(), Purpose.AS_LEFT, first.plus(WEEK.multipliedBy(14)), asAimed()), 1700));
        assertThat(open(AlertCause.STEPPED)).isEmpty();
    }

    @Test
    void whatAPersonClosedIsNotOpenedAgainByFurtherRunsButByAnotherStep() {
        weeks(studio.hero(), 0, 14, from(11, dimmed(0.95)));
        var alert = open(AlertCause.STEPPED).get(0);
        engineer()
                .post("/alerts/" + alert.id() + "/closure", new Closure("The menu was changed on purpose."))
                .expect(200);
        weeks(studio.hero(), 14, 20, week -> dimmed(0.95));
        assertThat(open(AlertCause.STEPPED)).as("after more runs").isEmpty();
        weeks(studio.hero(), 20, 24, week -> dimmed(0.85));
        assertThat(open(AlertCause.STEPPED)).as("after another step").hasSize(1);
    }

    @Test
    void aStepThatLeavesTheDisplayWithinToleranceIsARemark() {
        weeks(studio.hero(), 0, 15, from(11, dimmed(1.046)));
        var room = engineer().get("/rooms/" + studio.room() + "/readiness").as(RoomReadiness.class);
        assertThat(room.state()).isEqualTo(ReadinessState.READY_WITH_REMARKS);
        assertThat(room.reasons()).extracting(Reason::code).contains("stepped");
    }

    @Test
    void aStepThatRestedOnWithdrawnRunsIsGone() {
        var runs = weeks(studio.hero(), 0, 14, from(12, dimmed(0.93)));
        assertThat(open(AlertCause.STEPPED)).hasSize(1);
        for (var run : runs.subList(12, 14)) {
            engineer()
                    .post("/runs/" + run.id() + "/withdrawal", new RunWithdrawalDraft("it was another display", null))
                    .expect(201);
        }
        assertThat(open(AlertCause.STEPPED)).isEmpty();
        assertThat(engineer().get("/presets/" + studio.hero() + "/findings").asListOf(Finding.class))
                .extracting(Finding::rule)
                .doesNotContain(Rule.STEP);
    }

    private String day(int week) {
        return first.plus(WEEK.multipliedBy(week)).toString().substring(0, 10);
    }

    private static List<Finding> steps(RunVerdict verdict) {
        return verdict.findings().stream()
                .filter(finding -> finding.rule() == Rule.STEP)
                .toList();
    }

    private static List<panelbook.wire.AlertNotice> stepped(List<panelbook.wire.AlertNotice> notices) {
        return notices.stream()
                .filter(notice -> notice.cause() == AlertCause.STEPPED && notice.event() == AlertEventKind.OPENED)
                .toList();
    }

    private List<Alert> all() {
        return engineer()
                .get("/alerts?limit=500&room=" + studio.room())
                .asPageOf(Alert.class)
                .items();
    }

    private List<Alert> open(AlertCause cause) {
        return all().stream().filter(alert -> alert.cause() == cause).toList();
    }

    /** What somebody is told of now: due dates apart. */
    private List<Alert> speaking() {
        return all().stream()
                .filter(alert -> alert.heldBy() == null && alert.cause() != AlertCause.RECALIBRATION_DUE)
                .toList();
    }

    private List<Alert> woken() {
        return all().stream()
                .filter(alert -> alert.cause() != AlertCause.RECALIBRATION_DUE)
                .filter(alert -> whole(alert).history().stream()
                        .anyMatch(event -> event.kind() == AlertEventKind.OPENED && !event.heldBack()))
                .toList();
    }

    private List<Alert> about(UUID subject) {
        return engineer().get("/alerts?cause=stepped&limit=500").asPageOf(Alert.class).items().stream()
                .filter(alert -> alert.subjectId().equals(subject) && alert.state() != AlertState.CLOSED)
                .toList();
    }

    private Alert whole(Alert alert) {
        return engineer().get("/alerts/" + alert.id()).as(Alert.class);
    }
}
