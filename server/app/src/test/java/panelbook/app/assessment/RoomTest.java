package panelbook.app.assessment;

import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Alert;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.Purpose;
import panelbook.wire.Role;
import panelbook.wire.RoomReadiness;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;

/** A room with a hero and a follower in which runs are taken one after the other. */
abstract class RoomTest extends ServiceTest {

    static final String OPERATOR = "operator A";

    Studio studio;
    UUID follower;
    Instant now;

    @BeforeEach
    void enterAStudio() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "lcd");
        now = clock.advance(Duration.ofHours(1));
    }

    void matchedRoom(UnaryOperator<XYZ> followerLooksLike) {
        matchedRoom(followerLooksLike, follower);
    }

    void matchedRoom(UnaryOperator<XYZ> followersLookLike, UUID... followers) {
        asLeft(studio.hero(), asAimed());
        for (var one : followers) {
            asLeft(one, asAimed());
        }
        var heroRun = run(studio.hero(), Purpose.MATCH, asAimed());
        studio.upload(heroRun);
        for (var one : followers) {
            var followerRun = run(one, Purpose.MATCH, followersLookLike);
            studio.upload(followerRun);
            studio.signOff(one, OPERATOR, followerRun, heroRun);
        }
    }

    RunVerdict asLeft(UUID preset, UnaryOperator<XYZ> bend) {
        return studio.upload(run(preset, Purpose.AS_LEFT, bend));
    }

    RunVerdict check(UUID preset, UnaryOperator<XYZ> bend) {
        return studio.upload(run(preset, Purpose.CHECK, bend));
    }

    RunUpload run(UUID preset, Purpose purpose, UnaryOperator<XYZ> bend) {
        now = now.plusSeconds(600);
        clock.advance(Duration.ofMinutes(10));
        return studio.run(preset, purpose, now, bend);
    }

    static Finding residual(RunVerdict verdict, Metric metric) {
        return verdict.findings().stream()
                .filter(finding -> finding.metric() == metric)
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + metric + " among " + verdict.findings()));
    }

    List<Alert> openAlerts() {
        return engineer().all("/alerts?room=" + studio.room(), Alert.class);
    }

    Alert alert(UUID id) {
        return engineer().get("/alerts/" + id).as(Alert.class);
    }

    RoomReadiness readiness() {
        return as(Role.MANAGER).get("/rooms/" + studio.room() + "/readiness").as(RoomReadiness.class);
    }

    void signOff(UUID one, String operator, UnaryOperator<XYZ> followerLooksLike) {
        var heroRun = run(studio.hero(), Purpose.MATCH, asAimed());
        var followerRun = run(one, Purpose.MATCH, followerLooksLike);
        studio.upload(heroRun);
        studio.upload(followerRun);
        studio.signOff(one, operator, followerRun, heroRun);
    }

    List<Finding> standing(UUID preset) {
        return engineer().get("/presets/" + preset + "/findings").asListOf(Finding.class);
    }

    /** The same run, cut down to patches from a place in the order measured. */
    static RunUpload part(RunUpload run, int from, int to) {
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
                run.baselineReason(),
                run.readings().subList(from, to));
    }
}
