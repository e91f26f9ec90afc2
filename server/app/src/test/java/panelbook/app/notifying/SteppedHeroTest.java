package panelbook.app.notifying;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.NotificationSettingsDraft;
import panelbook.wire.NotificationState;
import panelbook.wire.Purpose;
import panelbook.wire.RunUpload;
import panelbook.wire.RunWithdrawalDraft;

/** A hero is checked week by week and steps: what people hear of it, from the upload to the channel. */
class SteppedHeroTest extends NotifyingTest {

    private static final Duration WEEK = Duration.ofDays(7);

    @Autowired
    private Reminders reminders;

    private Receiver receiver;
    private Random noise;
    private Instant first;

    @BeforeEach
    void open() throws Exception {
        receiver = new Receiver();
        noise = new Random(17);
        // measured in the past, so that the clock that all tests share stays where it is
        first = clock.advance(Duration.ofHours(1)).minus(WEEK.multipliedBy(40));
        webhook(receiver);
    }

    @AfterEach
    void close() {
        receiver.close();
    }

    /** The meter's scatter is a tenth of a per cent. */
    private RunUpload week(UUID preset, int week, UnaryOperator<XYZ> bend) {
        var scatter = dimmed(Math.exp(0.001 * noise.nextGaussian()));
        var run = studio.run(
                preset,
                week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                first.plus(WEEK.multipliedBy(week)),
                xyz -> scatter.apply(bend.apply(xyz)));
        return Studio.atPanelHours(run, 1000 + 50 * week);
    }

    private void hero(int from, int to, UnaryOperator<XYZ> bend) {
        for (var week = from; week < to; week++) {
            studio.upload(week(studio.hero(), week, bend));
        }
    }

    @Test
    void aHeroThatStepsIsToldOnceAndItsMovementIsNotToldAgain() {
        set(new NotificationSettingsDraft(null, null, 5, 30));
        var follower = studio.display("Follower", "lcd");
        hero(0, 1, asAimed());
        studio.upload(week(follower, 0, tinted(0, 0)));
        var heroRun = studio.run(studio.hero(), Purpose.MATCH, first.plusSeconds(600), asAimed());
        var followerRun = studio.run(follower, Purpose.MATCH, first.plusSeconds(600), tinted(0.004, -0.002));
        studio.upload(Studio.atPanelHours(heroRun, 1000));
        studio.upload(Studio.atPanelHours(followerRun, 1000));
        studio.signOff(follower, "operator A", followerRun, heroRun);
        for (var week = 1; week < 17; week++) {
            studio.upload(week(follower, week, tinted(0.004, -0.002)));
            hero(week, week + 1, week < 13 ? asAimed() : dimmed(0.92));
            sendGathered();
        }

        assertThat(speaking()).as("open alerts that speak").containsExactly(AlertCause.STEPPED);
        assertThat(told()).as("what the channel was told").containsExactly("opened moved");
        assertThat(notifications(alert(AlertCause.STEPPED)).get(0).why()).isEqualTo(Outbox.TOLD_AS_MOVEMENT);

        hero(17, 20, asAimed());
        sendGathered();
        assertThat(speaking()).isEmpty();
        assertThat(told())
                .as("one end for one beginning")
                .hasSize(2)
                .last()
                .asString()
                .startsWith("closed");
    }

    @Test
    void aMovementThatTurnsOutAsAStepBeforeAnybodyWasToldIsToldAsAStepAlone() {
        hero(0, 13, asAimed());
        hero(13, 14, dimmed(0.92));
        var moved = alert(AlertCause.MOVED);
        hero(14, 16, dimmed(0.92));
        sendGathered();
        assertThat(told()).containsExactly("opened stepped");
        assertThat(notifications(moved))
                .singleElement()
                .satisfies(one -> assertThat(one.state()).isEqualTo(NotificationState.LEFT_OUT));
    }

    @Test
    void aDisplayThatHadMovedBeforeItSteppedIsToldOfAgain() {
        hero(0, 1, asAimed());
        for (var week = 1; week < 14; week++) {
            hero(week, week + 1, dimmed(Math.exp(-0.006 * week)));
        }
        sendGathered();
        assertThat(told()).containsExactly("opened moved");
        clock.advance(Duration.ofMinutes(1));
        for (var week = 14; week < 18; week++) {
            hero(week, week + 1, dimmed(0.88 * Math.exp(-0.006 * week)));
            sendGathered();
        }
        assertThat(told()).contains("opened stepped");
    }

    @Test
    void whoIsToldOfTheMovementIsRemindedOfTheStepUnlessSomebodyHasItInHand() {
        set(new NotificationSettingsDraft(240, null, 5, 0));
        hero(0, 13, asAimed());
        hero(13, 14, dimmed(0.92));
        send();
        var moved = alert(AlertCause.MOVED);
        engineer()
                .post("/alerts/" + moved + "/acknowledgement", new Acknowledgement("looking"))
                .expect(200);
        hero(14, 16, dimmed(0.92));
        remindAfter(Duration.ofHours(5));
        assertThat(told()).as("somebody has it in hand").containsExactly("opened moved");
    }

    @Test
    void aStepThatNobodyHasInHandIsEscalatedAlthoughItWasToldAsAMovement() {
        set(new NotificationSettingsDraft(240, null, 5, 0));
        hero(0, 13, asAimed());
        hero(13, 14, dimmed(0.92));
        send();
        hero(14, 16, dimmed(0.92));
        remindAfter(Duration.ofHours(5));
        assertThat(told()).containsExactly("opened moved", "escalated stepped");
    }

    @Test
    void anAlertThatComesBackAndEndsByOneCorrectionOfTheBookIsNotTold() {
        var preset = studio.display("Display", "lcd");
        offTarget(preset, 0.5);
        sendGathered();
        var well = studio.run(preset, Purpose.AS_LEFT, clock.advance(Duration.ofSeconds(1)), asAimed());
        studio.upload(well);
        studio.upload(studio.run(preset, Purpose.AS_LEFT, clock.advance(Duration.ofSeconds(1)), asAimed()));
        sendGathered();
        assertThat(told()).containsExactly("opened off-target", "closed off-target");
        engineer()
                .post("/runs/" + well.id() + "/withdrawal", new RunWithdrawalDraft("it was another display", null))
                .expect(201);
        sendGathered();
        assertThat(told()).as("it was well before and after").hasSize(2);
    }

    private void remindAfter(Duration time) {
        clock.advance(time);
        reminders.run();
        send();
    }

    private List<Alert> all() {
        return engineer()
                .get("/alerts?limit=500&room=" + studio.room())
                .asPageOf(Alert.class)
                .items();
    }

    private UUID alert(AlertCause cause) {
        return all().stream()
                .filter(alert -> alert.cause() == cause)
                .findFirst()
                .orElseThrow()
                .id();
    }

    /** Causes of the alerts that speak; due dates apart. */
    private List<AlertCause> speaking() {
        return all().stream()
                .filter(alert -> alert.heldBy() == null && alert.cause() != AlertCause.RECALIBRATION_DUE)
                .map(Alert::cause)
                .toList();
    }

    private List<String> told() {
        return told(receiver);
    }
}
