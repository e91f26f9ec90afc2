package panelbook.app.matching;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.tinted;

import java.time.Duration;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Match;
import panelbook.wire.Purpose;
import panelbook.wire.Role;
import panelbook.wire.RoomTrims;
import panelbook.wire.RunUpload;
import panelbook.wire.SignOffDraft;
import panelbook.wire.Trim;

/** The sign-off keeps what the operator accepted: the offset, and where the controls stand. */
class SignOffTest extends ServiceTest {

    private Studio studio;
    private UUID follower;
    private RunUpload followerRun;
    private RunUpload heroRun;

    @BeforeEach
    void measureAPair() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "lcd");
        var now = clock.advance(Duration.ofMinutes(10));
        followerRun = studio.run(
                follower,
                Purpose.MATCH,
                now,
                xyz -> tinted(0.003, 0.004).apply(xyz).times(0.95));
        heroRun = studio.run(studio.hero(), Purpose.MATCH, now, asAimed());
        studio.upload(followerRun);
        studio.upload(heroRun);
    }

    @Test
    void theAgreedOffsetIsTheMeasuredDifferenceFollowerLessHero() {
        var match = sign("operator A", List.of());
        assertThat(match.agreedOffset().du()).isCloseTo(0.003, offset(1e-9));
        assertThat(match.agreedOffset().dv()).isCloseTo(0.004, offset(1e-9));
        assertThat(match.agreedOffset().duv()).isCloseTo(0.005, offset(1e-9));
        assertThat(match.agreedOffset().luminancePercent()).isCloseTo(-5, offset(1e-9));
        assertThat(match.inForce()).isTrue();
        assertThat(match.inQuestion()).isNull();
    }

    /** JCGM 100:2008, 5.1.2: the meter's whole uncertainty twice on unlike panels, its repeatability alone on like ones. */
    @Test
    void theOffsetCarriesWhatTheMeterIsWorthOnTheTwoPanels() {
        var unlike = sign("operator A", List.of()).agreedOffset();
        assertThat(unlike.chromaticityUncertainty()).isCloseTo(Math.sqrt(2) * 0.0005, offset(1e-9));
        assertThat(unlike.luminanceUncertaintyPercent()).isCloseTo(0.95 * Math.sqrt(2), offset(1e-4));
        var twin = studio.display("Follower 2", "oled");
        var run = studio.run(twin, Purpose.MATCH, clock.instant(), tinted(0.003, 0.004));
        studio.upload(run);
        var alike = studio.signOff(twin, "operator A", run, heroRun).agreedOffset();
        assertThat(alike.chromaticityUncertainty()).isCloseTo(Math.sqrt(2) * 0.0002, offset(1e-9));
        assertThat(alike.luminanceUncertaintyPercent()).isCloseTo(Math.sqrt(2) * 0.2, offset(1e-4));
    }

    @Test
    void closingRunsAreGivenBothOrNeither() {
        refused(draft(follower, studio.hero(), followerRun.id(), null), 400, "both closing runs, or neither");
        var unmeasured = engineer()
                .post("/matches", draft(follower, studio.hero(), null, null))
                .expect(201)
                .as(Match.class);
        assertThat(unmeasured.measured()).isFalse();
        assertThat(unmeasured.inForce()).isTrue();
    }

    @Test
    void theTrimsOfEachOperatorAreKeptWithTheirHistory() {
        sign("operator A", List.of(new Trim("gain.red", "all", -2)));
        sign("operator B", List.of(new Trim("saturation", "all", 1)));
        var newer = sign("operator A", List.of(new Trim("gain.red", "all", -3), new Trim("bias.blue", "low", 1)));
        var trims =
                as(Role.CALIBRATOR).get("/rooms/" + studio.room() + "/trims").as(RoomTrims.class);
        assertThat(trims.inForce()).extracting(Match::operator).containsExactly("operator A", "operator B");
        assertThat(trims.inForce().get(0).id()).isEqualTo(newer.id());
        assertThat(trims.inForce().get(0).trims())
                .containsExactly(new Trim("bias.blue", "low", 1), new Trim("gain.red", "all", -3));
        assertThat(trims.history())
                .singleElement()
                .satisfies(old -> assertThat(old.trims()).containsExactly(new Trim("gain.red", "all", -2)));
    }

    @Test
    void theSameSignOffAgainIsTheSameMatch() {
        var draft = studio.signOffDraft(follower, "operator A", followerRun.id(), heroRun.id(), List.of());
        var first = engineer().post("/matches", draft).expect(201).as(Match.class);
        assertThat(engineer().post("/matches", draft).expect(200).as(Match.class))
                .isEqualTo(first);
        var other = new SignOffDraft(
                draft.id(),
                follower,
                studio.hero(),
                "operator B",
                followerRun.id(),
                heroRun.id(),
                List.of(),
                null,
                null,
                null);
        engineer().post("/matches", other).expect(409);
    }

    @Test
    void otherRemarksUnderTheSameIdAreRefusedRatherThanDropped() {
        var draft = studio.signOffDraft(follower, "operator A", followerRun.id(), heroRun.id(), List.of());
        engineer().post("/matches", draft).expect(201);
        var remarked = new SignOffDraft(
                draft.id(),
                follower,
                studio.hero(),
                "operator A",
                followerRun.id(),
                heroRun.id(),
                List.of(),
                draft.material(),
                "skin tones a touch warm",
                null);
        engineer().post("/matches", remarked).expect(409);
    }

    @Test
    void rivalsThatSendTheSameSignOffAtOnceMakeOneMatch() throws Exception {
        var draft = studio.signOffDraft(follower, "operator A", followerRun.id(), heroRun.id(), List.of());
        var service = engineer();
        Callable<Integer> send = () -> service.post("/matches", draft).status();
        var pool = Executors.newFixedThreadPool(4);
        try {
            for (var answer : pool.invokeAll(Collections.nCopies(4, send))) {
                assertThat(answer.get()).isIn(200, 201);
            }
        } finally {
            pool.shutdownNow();
        }
        assertThat(engineer().all("/matches?follower=" + follower, Match.class)).hasSize(1);
    }

    @Test
    void whatIsNoPairIsRefusedInWords() {
        refused(draft(studio.hero(), studio.hero(), heroRun.id(), heroRun.id()), 409, "is the hero of its room itself");
        refused(draft(follower, follower, followerRun.id(), followerRun.id()), 409, "is not the hero of the room");
        refused(draft(follower, studio.hero(), heroRun.id(), heroRun.id()), 400, "/followerRunId");
        refused(draft(follower, studio.hero(), followerRun.id(), UUID.randomUUID()), 400, "/heroRunId");
        refused(draft(UUID.randomUUID(), studio.hero(), followerRun.id(), heroRun.id()), 400, "/followerPresetId");
    }

    @Test
    void aClosingRunWithoutWhiteIsRefused() {
        var now = clock.advance(Duration.ofMinutes(10));
        var whole = studio.run(follower, Purpose.MATCH, now, asAimed());
        var dark = new RunUpload(
                whole.id(),
                whole.presetId(),
                whole.instrumentId(),
                whole.purpose(),
                whole.operator(),
                whole.takenAt(),
                null,
                60,
                null,
                null,
                null,
                null,
                whole.readings().subList(0, 5));
        studio.upload(dark);
        refused(draft(follower, studio.hero(), dark.id(), heroRun.id()), 400, "measure white");
    }

    @Test
    void aTrimNamedTwiceIsRefusedByItsPlace() {
        var trims = List.of(new Trim("gain.red", "all", 1), new Trim("gain.red", "all", 2));
        refused(studio.signOffDraft(follower, "operator A", followerRun.id(), heroRun.id(), trims), 400, "/trims/1");
    }

    private Match sign(String operator, List<Trim> trims) {
        clock.advance(Duration.ofMinutes(1));
        return engineer()
                .post("/matches", studio.signOffDraft(follower, operator, followerRun.id(), heroRun.id(), trims))
                .expect(201)
                .as(Match.class);
    }

    private static SignOffDraft draft(UUID follower, UUID hero, UUID followerRun, UUID heroRun) {
        return new SignOffDraft(
                UUID.randomUUID(), follower, hero, "operator A", followerRun, heroRun, List.of(), null, null, null);
    }

    private void refused(SignOffDraft draft, int status, String words) {
        assertThat(engineer().post("/matches", draft).expect(status).problem().detail())
                .contains(words);
    }
}
