package panelbook.app.matching;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.XYZ;
import panelbook.wire.GuardDecision;
import panelbook.wire.GuardReport;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.OpeningDraft;
import panelbook.wire.Purpose;
import panelbook.wire.Role;
import panelbook.wire.StepAnswer;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.StoryState;
import panelbook.wire.Trim;

/** What must not stand is refused with the readings that show it, until it is set back or a person answers for it. */
class GuardsTest extends ServiceTest {

    private Studio studio;
    private UUID follower;
    private Visit visit;

    @BeforeEach
    void openAMatch() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "oled");
        studio.upload(studio.run(follower, Purpose.AS_LEFT, clock.advance(Duration.ofMinutes(10)), asAimed()));
        visit = new Visit(as(Role.CALIBRATOR), clock);
        visit.open(new OpeningDraft(
                UUID.randomUUID(), follower, studio.hero(), "operator A", null, 60, 60, true, List.of(), null));
    }

    @Test
    void aLiftedFloorIsRefusedWithBlackThenAndNow() {
        visit.trim("black-level", 2);
        var answer = read(lifted(0.02));
        assertThat(answer.guards()).singleElement().satisfies(report -> {
            assertThat(report.decision()).isEqualTo(GuardDecision.REFUSED);
            assertThat(report.before()).isCloseTo(0.001, offset(1e-6));
            assertThat(report.after()).isCloseTo(0.021, offset(1e-6));
            assertThat(report.unit()).isEqualTo("cd/m²");
            assertThat(report.readings()).hasSize(2);
            assertThat(report.explanation())
                    .contains("0.0210")
                    .contains("0.0010")
                    .contains("0.0050");
        });
        assertThat(answer.step().guards()).isEqualTo(answer.guards());
    }

    @Test
    void aFloorWithinItsTolerancePasses() {
        visit.trim("black-level", 1);
        var answer = read(lifted(0.002));
        assertThat(answer.guards()).isEmpty();
        assertThat(answer.step().guards()).extracting(GuardReport::decision).containsExactly(GuardDecision.PASSED);
    }

    /** Of a display of 1000 cd/m² PQ rises no more above 75 % signal: its ramp tops out between the codes of 70 and 80 %. */
    @ParameterizedTest
    @ValueSource(strings = {"gain.red", "Gain Red", "gain"})
    void aRaisedGainWhoseChannelClipsIsRefused(String control) {
        visit.trim(control, 3);
        var answer = read(redClippedAt(300));
        assertThat(answer.guards()).singleElement().satisfies(report -> {
            assertThat(report.decision()).isEqualTo(GuardDecision.REFUSED);
            assertThat(report.control()).isEqualTo(control);
            assertThat(report.after()).isLessThan(report.before() / 2);
            assertThat(report.explanation()).startsWith("Red clips").contains("from 677/677/677 to 765/765/765");
        });
    }

    @Test
    void aGainThatStillRisesPassesAndOneThatWasLoweredIsNotLookedAt() {
        visit.trim("gain.green", -2);
        assertThat(read(asAimed()).step().guards()).isEmpty();
        visit.trim("gain.green", 3);
        assertThat(read(asAimed()).step().guards())
                .extracting(GuardReport::decision)
                .containsExactly(GuardDecision.PASSED);
    }

    @Test
    void aRefusedTrimKeepsTheMatchFromBeingSignedUntilItIsSetBack() {
        visit.trim("black-level", 2);
        read(lifted(0.02));
        assertThat(sign().expect(409).problem().detail())
                .contains("0.0210")
                .contains("0.0010")
                .contains("Set black-level back, or override with a reason");
        visit.returnTo(0);
        assertThat(visit.story().guards()).isEmpty();
        assertThat(sign().expect(201).as(Match.class).trims()).isEmpty();
    }

    @Test
    void whatPassedFurtherBackDoesNotExcuseWhatWasRefusedFurtherOut() {
        visit.trim("black-level", 2);
        read(lifted(0.02));
        visit.trim("black-level", -1);
        assertThat(read(lifted(0.001)).guards()).isEmpty();
        assertThat(visit.trim("black-level", 1).guards())
                .extracting(GuardReport::decision)
                .containsExactly(GuardDecision.REFUSED);
        sign().expect(409);
    }

    @Test
    void aPersonOverridesWithAReasonThatStaysOnTheRecordAndCoversNoMoreThanThatSetting() {
        visit.trim("black-level", 2);
        read(lifted(0.02));
        visit.override("black-level", "the operator wants to see into the shadows");
        assertThat(visit.story().guards()).singleElement().satisfies(report -> {
            assertThat(report.decision()).isEqualTo(GuardDecision.OVERRIDDEN);
            assertThat(report.reason()).isEqualTo("the operator wants to see into the shadows");
        });
        visit.trim("black-level", 1);
        assertThat(read(lifted(0.04)).guards())
                .extracting(GuardReport::decision)
                .containsExactly(GuardDecision.REFUSED);
        sign().expect(409);
        visit.trim("black-level", -1);
        var match = sign().expect(201).as(Match.class);
        assertThat(match.trims()).containsExactly(new Trim("black-level", "all", 2));
        var story = visit.story();
        assertThat(story.state()).isEqualTo(StoryState.SIGNED);
        assertThat(story.guards())
                .extracting(GuardReport::reason)
                .containsExactly("the operator wants to see into the shadows");
    }

    @Test
    void anOverrideBeforeAnythingWasRefusedCoversNothing() {
        visit.override("black-level", "just in case");
        visit.trim("black-level", 2);
        read(lifted(0.02));
        sign().expect(409);
    }

    @Test
    void aClosingRunThatWasNoStepIsLookedAtAsWell() {
        visit.trim("black-level", 2);
        var closing = studio.run(follower, Purpose.MATCH, clock.advance(Duration.ofMinutes(1)), lifted(0.02));
        var hero = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        studio.upload(closing);
        studio.upload(hero);
        var draft = new StorySignOffDraft(UUID.randomUUID(), closing.id(), hero.id(), null, null, null);
        assertThat(as(Role.CALIBRATOR)
                        .post("/match-stories/" + visit.id() + "/sign-off", draft)
                        .expect(409)
                        .problem()
                        .detail())
                .contains("The floor is lifted");
    }

    @Test
    void aRunWithoutTheTopOfTheRampCannotTell() {
        visit.trim("gain.red", 1);
        var whole = studio.run(follower, Purpose.MATCH, clock.advance(Duration.ofMinutes(1)), asAimed());
        var without = new panelbook.wire.RunUpload(
                whole.id(),
                follower,
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
                whole.readings().subList(0, 1));
        studio.upload(without);
        assertThat(visit.reading(without.id()).guards()).singleElement().satisfies(report -> {
            assertThat(report.decision()).isEqualTo(GuardDecision.UNDECIDED);
            assertThat(report.before()).isNull();
            assertThat(report.explanation()).contains("measure the upper end of the ramp");
        });
    }

    @Test
    void aMatchIsSignedWithTheTrimsOfItsLastStepAndSignedOnce() {
        visit.trim("saturation", -1);
        var run = studio.run(follower, Purpose.MATCH, clock.advance(Duration.ofMinutes(1)), asAimed());
        var hero = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        studio.upload(run);
        studio.upload(hero);
        visit.reading(run.id());
        visit.trim("saturation", -1);
        var path = "/match-stories/" + visit.id() + "/sign-off";
        var draft = new StorySignOffDraft(UUID.randomUUID(), run.id(), hero.id(), "skin tones", "good", null);
        assertThat(engineer().post(path, draft).expect(409).problem().detail())
                .contains("taken at step 2")
                .contains("read the follower once more");
        visit.returnTo(2);
        var match = engineer().post(path, draft).expect(201).as(Match.class);
        assertThat(match.trims()).containsExactly(new Trim("saturation", "all", -1));
        assertThat(match.storyId()).isEqualTo(visit.id());
        assertThat(engineer().post(path, draft).expect(200).as(Match.class)).isEqualTo(match);
        var second = new StorySignOffDraft(UUID.randomUUID(), null, null, null, null, null);
        engineer().post(path, second).expect(409);
        var story = engineer().get("/match-stories/" + visit.id()).as(MatchStory.class);
        assertThat(story.signOff()).isEqualTo(match);
        visit.send(visit.trimDraft("saturation", 1)).expect(409);
    }

    @Test
    void twoClientsThatSignAtOnceMakeOneSignOff() throws Exception {
        visit.trim("saturation", -1);
        var pool = Executors.newFixedThreadPool(2);
        try {
            var answers = pool.invokeAll(Collections.nCopies(2, (Callable<Integer>) () -> sign().status()));
            var statuses = new ArrayList<Integer>();
            for (var answer : answers) {
                statuses.add(answer.get());
            }
            assertThat(statuses).containsExactlyInAnyOrder(201, 409);
        } finally {
            pool.shutdownNow();
        }
        assertThat(engineer().all("/matches?follower=" + follower, Match.class)).hasSize(1);
    }

    private panelbook.app.testing.Answer sign() {
        var draft = new StorySignOffDraft(UUID.randomUUID(), null, null, "night interiors", null, null);
        return as(Role.CALIBRATOR).post("/match-stories/" + visit.id() + "/sign-off", draft);
    }

    private StepAnswer read(UnaryOperator<XYZ> bend) {
        var run = studio.run(follower, Purpose.MATCH, clock.advance(Duration.ofMinutes(1)), bend);
        studio.upload(run);
        return visit.reading(run.id());
    }

    private static UnaryOperator<XYZ> lifted(double by) {
        return xyz ->
                xyz.plus(Studio.TARGET.white().times(by / Studio.TARGET.white().luminance()));
    }

    /** Red gives no more than it does in a white of so much light, cd/m². */
    private static UnaryOperator<XYZ> redClippedAt(double white) {
        Matrix3 toXyz = Studio.TARGET.space().toXyz();
        var toRgb = toXyz.inverse();
        return xyz -> {
            var rgb = toRgb.times(xyz.x(), xyz.y(), xyz.z());
            return toXyz.times(Math.min(rgb.x(), white), rgb.y(), rgb.z());
        };
    }
}
