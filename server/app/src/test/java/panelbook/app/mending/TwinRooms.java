package panelbook.app.mending;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.BiConsumer;
import java.util.function.IntFunction;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Match;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.RunUpload;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.Trim;
import panelbook.wire.WithdrawnRun;

/**
 * Two rooms in which the same is done at the same time; in one of them a mistake is made as well and put right. What the book
 * then says of both is the same.
 */
abstract class TwinRooms extends ServiceTest {

    /** A room with a hero and two followers. */
    static final class Twin {
        /** Which preset a deed is done on: n, or another entry of the same display. */
        IntFunction<UUID> meant = this::preset;

        final Studio studio;
        final UUID hero;
        final UUID one;
        final UUID other;

        private Twin(Studio studio) {
            this.studio = studio;
            this.hero = studio.hero();
            this.one = studio.display("Follower 1", "lcd");
            this.other = studio.display("Follower 2", "oled");
        }

        UUID preset(int n) {
            return n == 0 ? hero : n == 1 ? one : other;
        }
    }

    Twin mistaken;
    Twin right;
    Instant now;

    @BeforeEach
    void enterTwins() {
        mistaken = new Twin(new Studio(engineer(), unique("studio")));
        right = new Twin(new Studio(engineer(), unique("studio")));
        now = clock.advance(Duration.ofHours(1));
    }

    void tick() {
        now = now.plusSeconds(600);
        clock.advance(Duration.ofMinutes(10));
    }

    /** Does the same in both rooms at one time. */
    void inBoth(BiConsumer<Twin, Instant> deed) {
        tick();
        deed.accept(mistaken, now);
        deed.accept(right, now);
    }

    void measure(int preset, Purpose purpose, UnaryOperator<XYZ> bend) {
        inBoth((twin, at) -> twin.studio.upload(twin.studio.run(twin.meant.apply(preset), purpose, at, bend)));
    }

    void signOff(int follower, String operator, UnaryOperator<XYZ> looksLike, Trim... trims) {
        inBoth((twin, at) -> sign(twin, at, follower, operator, looksLike, trims));
    }

    Match sign(Twin twin, Instant at, int follower, String operator, UnaryOperator<XYZ> looksLike, Trim... trims) {
        var heroRun = twin.studio.run(twin.hero, Purpose.MATCH, at, asAimed());
        var followerRun = twin.studio.run(twin.preset(follower), Purpose.MATCH, at, looksLike);
        twin.studio.upload(heroRun);
        twin.studio.upload(followerRun);
        var draft = twin.studio.signOffDraft(
                twin.preset(follower), operator, followerRun.id(), heroRun.id(), List.of(trims));
        return engineer().post("/matches", draft).expect(201).as(Match.class);
    }

    /** Both rooms calibrated, and both followers matched for one operator. */
    void matchedRooms() {
        for (var preset = 0; preset < 3; preset++) {
            measure(preset, Purpose.AS_LEFT, asAimed());
        }
        signOff(1, "operator A", Studio.tinted(0.012, -0.004), new Trim("gain.red", "all", 2));
        signOff(2, "operator A", Studio.tinted(0.004, 0.002));
    }

    WithdrawnRun withdraw(UUID run, UUID onto) {
        return engineer()
                .post(
                        "/runs/" + run + "/withdrawal",
                        new RunWithdrawalDraft("it was uploaded to the wrong preset", onto))
                .expect(201)
                .as(WithdrawnRun.class);
    }

    /** A run with its counter, file name and remarks. */
    static RunUpload told(RunUpload run, double panelHours) {
        return upload(run, run.id(), run.presetId(), panelHours, "monday.csv", "left the menu closed", run.readings());
    }

    /** The same readings under another id, on another preset. */
    static RunUpload again(RunUpload run, UUID id, UUID preset) {
        return again(run, id, preset, run.readings());
    }

    static RunUpload again(RunUpload run, UUID id, UUID preset, List<ReadingEntry> readings) {
        return upload(run, id, preset, run.panelHours(), run.fileName(), run.remarks(), readings);
    }

    private static RunUpload upload(
            RunUpload run,
            UUID id,
            UUID preset,
            Double panelHours,
            String fileName,
            String remarks,
            List<ReadingEntry> readings) {
        return new RunUpload(
                id,
                preset,
                run.instrumentId(),
                run.purpose(),
                run.operator(),
                run.takenAt(),
                panelHours,
                run.minutesSincePowerOn(),
                run.ambientIlluminanceLux(),
                fileName,
                remarks,
                run.baselineReason(),
                readings);
    }

    void bothSayTheSame(String when) {
        var mended = Picture.of(engineer(), mistaken.studio).lines();
        var clean = Picture.of(engineer(), right.studio).lines();
        assertThat(without(mended, clean))
                .as("said only where a mistake was put right, " + when + "; only where none was made: "
                        + String.join("\n", without(clean, mended)))
                .isEmpty();
        assertThat(mended).as(when).isEqualTo(clean);
    }

    private static List<String> without(List<String> lines, List<String> others) {
        var left = new ArrayList<>(lines);
        others.forEach(left::remove);
        return left;
    }
}
