package panelbook.app.alerts;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.app.alerts.OpenCause.Place;
import panelbook.wire.AlertCause;

/** Which alert explains which: house policy, so the laws and the words of the policy are the check. */
class CauseTreeTest {

    private static final UUID HERO = new UUID(0, 1);
    private static final UUID FOLLOWER = new UUID(0, 2);
    private static final UUID OTHER = new UUID(0, 3);
    private static final UUID ROOM = new UUID(0, 4);
    private static final UUID METER = new UUID(0, 5);

    private static OpenCause cause(AlertCause cause, Place place, UUID subject, UUID... touches) {
        return new OpenCause(UUID.randomUUID(), cause, place, subject, Set.of(touches));
    }

    @Test
    void aStepOfTheHeroHoldsBackThatItMoved() {
        var step = cause(AlertCause.STEPPED, Place.HERO, HERO);
        var moved = cause(AlertCause.MOVED, Place.HERO, HERO, FOLLOWER);
        assertThat(CauseTree.holders(List.of(moved, step))).isEqualTo(Map.of(moved.id(), step.id()));
    }

    @Test
    void theWholeChainFromTheMeterToTheFollowerIsSaidOnceByTheMeter() {
        var meter = cause(AlertCause.STEPPED, Place.INSTRUMENT, METER, HERO, FOLLOWER);
        var feed = cause(AlertCause.STEPPED, Place.ROOM, ROOM, HERO, FOLLOWER);
        var hero = cause(AlertCause.STEPPED, Place.HERO, HERO, FOLLOWER);
        var follower = cause(AlertCause.STEPPED, Place.FOLLOWER, FOLLOWER);
        var moved = cause(AlertCause.MOVED, Place.FOLLOWER, FOLLOWER);
        var off = cause(AlertCause.OFF_TARGET, Place.FOLLOWER, FOLLOWER);
        var open = new ArrayList<>(List.of(off, moved, follower, hero, feed, meter));
        for (var top = open.size() - 1; top > 0; top--) {
            var holders = CauseTree.holders(open);
            assertThat(holders.keySet()).hasSize(top);
            assertThat(new HashSet<>(holders.values()))
                    .as(
                            "with what stands above closed, %s is the one that speaks",
                            open.get(top).cause())
                    .containsExactly(open.get(top).id());
            open.remove(top);
        }
    }

    @Test
    void whatAFollowerDidItselfIsNotExplainedByAHeroThatMovedToo() {
        var hero = cause(AlertCause.MOVED, Place.HERO, HERO, FOLLOWER);
        var stepped = cause(AlertCause.STEPPED, Place.HERO, HERO, FOLLOWER);
        var follower = cause(AlertCause.MOVED, Place.FOLLOWER, FOLLOWER);
        assertThat(CauseTree.holders(List.of(hero, stepped, follower))).containsOnlyKeys(hero.id());
    }

    @Test
    void aMeterThatNamesOnlySomeOfTheDisplaysThatSteppedDoesNotExplainTheRoom() {
        var feed = cause(AlertCause.STEPPED, Place.ROOM, ROOM, HERO, FOLLOWER);
        var meter = cause(AlertCause.STEPPED, Place.INSTRUMENT, METER, HERO);
        assertThat(CauseTree.holders(List.of(feed, meter))).isEmpty();
    }

    @Test
    void aDisplayThatTheFeedDoesNotNameSpeaksForItself() {
        var feed = cause(AlertCause.STEPPED, Place.ROOM, ROOM, HERO, FOLLOWER);
        var moved = cause(AlertCause.MOVED, Place.FOLLOWER, OTHER);
        assertThat(CauseTree.holders(List.of(feed, moved))).isEmpty();
    }

    @Test
    void aHerosNewBaselineHoldsBackTheQuestionsOnTheFollowersThatItNames() {
        var hero = cause(AlertCause.MATCH_IN_QUESTION, Place.HERO, HERO, FOLLOWER);
        var follower = cause(AlertCause.MATCH_IN_QUESTION, Place.FOLLOWER, FOLLOWER);
        var other = cause(AlertCause.MATCH_IN_QUESTION, Place.FOLLOWER, OTHER);
        assertThat(CauseTree.holders(List.of(hero, follower, other))).isEqualTo(Map.of(follower.id(), hero.id()));
    }

    @Test
    void nothingExplainsThatRecalibrationIsDueOrThatACertificateExpired() {
        var meter = cause(AlertCause.STEPPED, Place.INSTRUMENT, METER, HERO, FOLLOWER);
        var certificate = cause(AlertCause.CERTIFICATE_EXPIRED, Place.INSTRUMENT, METER);
        var due = cause(AlertCause.RECALIBRATION_DUE, Place.HERO, HERO);
        var step = cause(AlertCause.STEPPED, Place.HERO, HERO, FOLLOWER);
        var question = cause(AlertCause.MATCH_IN_QUESTION, Place.HERO, HERO, FOLLOWER);
        assertThat(CauseTree.holders(List.of(certificate, due, question, meter, step)))
                .containsOnlyKeys(step.id());
    }

    static IntStream seeds() {
        return IntStream.range(0, 300);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whoeverHoldsOthersBackSpeaksForItselfAndExplainsThemThroughWhatIsOpen(int seed) {
        var open = anyAlerts(new Random(seed));
        var holders = CauseTree.holders(open);
        var reached = reached(open);
        for (var one : open) {
            var above = reached.get(one.id());
            var holder = holders.get(one.id());
            assertThat(above).as("nothing explains itself: %s", one).doesNotContain(one.id());
            assertThat(holder == null)
                    .as("held exactly when explained: %s", one)
                    .isEqualTo(above.isEmpty());
            if (holder != null) {
                assertThat(above).as("explained by its holder: %s", one).contains(holder);
                assertThat(holders).as("no holder is held").doesNotContainKey(holder);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theOrderInWhichAlertsWereOpenedAndTheirIdsHaveNoSay(int seed) {
        var random = new Random(seed);
        var open = anyAlerts(random);
        var holders = CauseTree.holders(open);
        var renamed = new HashMap<UUID, UUID>();
        open.forEach(one -> renamed.put(one.id(), new UUID(random.nextLong(), random.nextLong())));
        var others = new ArrayList<>(open.stream()
                .map(one ->
                        new OpenCause(renamed.get(one.id()), one.cause(), one.place(), one.subjectId(), one.touches()))
                .toList());
        Collections.shuffle(others, random);
        var expected = new HashMap<UUID, UUID>();
        holders.forEach((held, holder) -> expected.put(renamed.get(held), renamed.get(holder)));
        assertThat(CauseTree.holders(others)).isEqualTo(expected);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void anAlertThatOpensReleasesNoOther(int seed) {
        var open = anyAlerts(new Random(seed));
        if (open.isEmpty()) {
            return;
        }
        var before = CauseTree.holders(open.subList(1, open.size())).keySet();
        assertThat(CauseTree.holders(open).keySet()).containsAll(before);
    }

    /** What explains each alert, at once or through others, by walking up until nothing new is found. */
    private static Map<UUID, Set<UUID>> reached(List<OpenCause> open) {
        var above = new HashMap<UUID, Set<UUID>>();
        for (var one : open) {
            var found = new HashSet<UUID>();
            var next = new ArrayList<>(List.of(one));
            while (!next.isEmpty()) {
                var last = next.remove(next.size() - 1);
                open.stream()
                        .filter(other -> CauseTree.explains(other, last) && found.add(other.id()))
                        .forEach(next::add);
            }
            above.put(one.id(), found);
        }
        return above;
    }

    /** Some alerts on few subjects, so that they meet; at most one per cause and subject, as the book keeps them. */
    private static List<OpenCause> anyAlerts(Random random) {
        var places = new HashMap<UUID, Place>();
        var presets = new ArrayList<UUID>();
        for (var i = 0; i < 10; i++) {
            var subject = new UUID(random.nextLong(), random.nextLong());
            places.put(subject, Place.values()[random.nextInt(Place.values().length)]);
            if (places.get(subject).isPreset()) {
                presets.add(subject);
            }
        }
        var open = new ArrayList<OpenCause>();
        places.forEach((subject, place) -> {
            for (var cause : AlertCause.values()) {
                if (random.nextInt(3) > 0) {
                    open.add(cause(cause, place, subject, some(presets, random)));
                }
            }
        });
        return open;
    }

    private static UUID[] some(List<UUID> presets, Random random) {
        return presets.stream().filter(preset -> random.nextBoolean()).toArray(UUID[]::new);
    }
}
