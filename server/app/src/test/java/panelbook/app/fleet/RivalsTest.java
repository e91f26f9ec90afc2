package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.FacilityDraft;
import panelbook.wire.Hero;
import panelbook.wire.HeroDraft;
import panelbook.wire.MoveDraft;
import panelbook.wire.RoomDraft;
import panelbook.wire.Stay;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;

/** Two at once, on the real engine. */
class RivalsTest extends ServiceTest {

    private static final int RIVALS = 8;
    private static final int ROUNDS = 5;

    @Test
    void ofEditsThatRestOnTheSameVersionOneWins() {
        var samples = new Samples(engineer());
        for (var round = 0; round < ROUNDS; round++) {
            var room = samples.room(samples.facility().id());
            var answers = atOnce(i -> engineer()
                    .put(
                            "/rooms/" + room.id(),
                            new RoomDraft(room.id(), room.facilityId(), "Rival " + i, null),
                            "\"0\""));
            assertOneOf(200, answers, 412);
            assertThat(engineer().get("/rooms/" + room.id()).etag()).isEqualTo("\"1\"");
        }
    }

    @Test
    void ofRevisionsThatRestOnTheSameVersionOneWins() {
        for (var round = 0; round < ROUNDS; round++) {
            var target = new Samples(engineer()).target();
            var answers = atOnce(i -> engineer().put("/targets/" + target.id(), brighter(target, 500 + i), "\"0\""));
            assertOneOf(200, answers, 412);
        }
    }

    @Test
    void theSameDraftAtOnceIsAddedOnce() {
        for (var round = 0; round < ROUNDS; round++) {
            var draft = new FacilityDraft(UUID.randomUUID(), unique("House"), "Europe/Lisbon");
            var answers = atOnce(i -> engineer().post("/facilities", draft));
            assertThat(answers)
                    .extracting(Answer::status)
                    .containsOnlyOnce(201)
                    .containsAnyOf(201)
                    .isSubsetOf(201, 200, 409);
            engineer().post("/facilities", draft).expect(200);
        }
    }

    @Test
    void aDisplayMovedByManyAtOnceStandsInOneRoom() {
        var samples = new Samples(engineer());
        var facility = samples.facility();
        var rooms = IntStream.range(0, RIVALS)
                .mapToObj(i -> samples.room(facility.id()))
                .toList();
        var display = samples.display(facility.id(), samples.room(facility.id()).id());
        clock.advance(Duration.ofHours(1));

        var answers = atOnce(i -> engineer()
                .post(
                        "/displays/" + display.id() + "/moves",
                        new MoveDraft(UUID.randomUUID(), rooms.get(i).id(), null, null)));

        assertOneOf(200, answers, 409);
        var stays = engineer().get("/displays/" + display.id() + "/stays").asListOf(Stay.class);
        assertThat(stays).hasSize(2).filteredOn(stay -> stay.to() == null).hasSize(1);
    }

    @Test
    void ofHeroesNamedAtOnceOneIs() {
        var samples = new Samples(engineer());
        var room = samples.room(samples.facility().id());
        var target = samples.target();
        var presets = IntStream.range(0, RIVALS)
                .mapToObj(i -> samples.preset(
                        samples.display(room.facilityId(), room.id()).id(), target.id()))
                .toList();

        var answers = atOnce(i -> engineer()
                .post(
                        "/rooms/" + room.id() + "/heroes",
                        new HeroDraft(presets.get(i).id(), null)));

        assertOneOf(201, answers, 409);
        assertThat(engineer().get("/rooms/" + room.id() + "/heroes").asListOf(Hero.class))
                .hasSize(1);
    }

    private static TargetDraft brighter(Target target, double peak) {
        var draft = Targets.draft(target);
        return new TargetDraft(
                draft.id(),
                draft.name(),
                draft.primaries(),
                draft.eotf(),
                draft.gamma(),
                draft.signalRange(),
                draft.bitDepth(),
                peak,
                draft.blackLuminance(),
                draft.toleranceSetId());
    }

    private static void assertOneOf(int won, List<Answer> answers, int lost) {
        assertThat(answers.stream().filter(answer -> answer.status() == won))
                .as("winners among %s", answers)
                .hasSize(1);
        assertThat(answers.stream().filter(answer -> answer.status() == lost)).hasSize(RIVALS - 1);
    }

    private interface Step {
        Answer take(int rival);
    }

    private static List<Answer> atOnce(Step step) {
        var barrier = new CyclicBarrier(RIVALS);
        var pool = Executors.newFixedThreadPool(RIVALS);
        try {
            var steps = new ArrayList<Callable<Answer>>();
            for (var i = 0; i < RIVALS; i++) {
                var rival = i;
                steps.add(() -> {
                    barrier.await();
                    return step.take(rival);
                });
            }
            var answers = new ArrayList<Answer>();
            for (var future : pool.invokeAll(steps)) {
                answers.add(future.get());
            }
            return answers;
        } catch (Exception failed) {
            throw new AssertionError(failed);
        } finally {
            pool.shutdownNow();
        }
    }
}
