package panelbook.app.mending;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.util.List;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.wire.Match;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.Purpose;
import panelbook.wire.Role;
import panelbook.wire.RoomTrims;
import panelbook.wire.Run;
import panelbook.wire.Trim;
import panelbook.wire.WithdrawnMatch;

/** A match that was signed for the wrong operator, or should not have been signed, is put right. */
class MatchWithdrawalTest extends TwinRooms {

    private static final Trim[] TRIMS = {new Trim("gain.blue", "all", -1), new Trim("bias.red", "low", 2)};

    private Match signedFor(String operator) {
        tick();
        sign(right, now, 1, "operator B", tinted(0.02, 0), TRIMS);
        return sign(mistaken, now, 1, operator, tinted(0.02, 0), TRIMS);
    }

    private WithdrawnMatch withdraw(Match match, String operator) {
        return engineer()
                .post(
                        "/matches/" + match.id() + "/withdrawal",
                        new MatchWithdrawalDraft("the wrong name was typed", operator))
                .expect(201)
                .as(WithdrawnMatch.class);
    }

    @Test
    void aMatchSignedForTheWrongOperatorIsThatOfTheRightOneAndTheOneItReplacedIsInForceAgain() {
        matchedRooms();
        var match = signedFor("operator A");
        measure(1, Purpose.CHECK, tinted(0.012, -0.004));
        var mended = withdraw(match, "operator B");
        bothSayTheSame("a match");
        measure(1, Purpose.CHECK, tinted(0.02, 0.001));
        measure(1, Purpose.CHECK, tinted(0.0, 0.02));
        bothSayTheSame("a match, and what came after");

        assertThat(mended.match().withdrawn().replacedBy())
                .isEqualTo(mended.replacement().id());
        assertThat(engineer()
                        .get("/rooms/" + mistaken.studio.room() + "/trims")
                        .as(RoomTrims.class)
                        .history())
                .as("the history shows the one that was withdrawn")
                .filteredOn(old -> old.withdrawn() != null)
                .singleElement()
                .satisfies(old -> {
                    assertThat(old.id()).isEqualTo(match.id());
                    assertThat(old.operator()).isEqualTo("operator A");
                    assertThat(old.trims()).isEqualTo(match.trims());
                    assertThat(old.withdrawn().reason()).isEqualTo("the wrong name was typed");
                });
    }

    @Test
    void aMatchThatWasNoneCountsForNobody() {
        matchedRooms();
        measure(1, Purpose.CHECK, tinted(0.02, 0));
        inBoth((twin, at) -> {
            twin.studio.upload(twin.studio.run(twin.hero, Purpose.MATCH, at, asAimed()));
            twin.studio.upload(twin.studio.run(twin.one, Purpose.MATCH, at, tinted(0.02, 0)));
        });
        tick();
        var runs = engineer().all("/runs?purpose=match&preset=" + mistaken.one, Run.class);
        var heroRuns = engineer().all("/runs?purpose=match&preset=" + mistaken.hero, Run.class);
        var match = engineer()
                .post(
                        "/matches",
                        mistaken.studio.signOffDraft(
                                mistaken.one,
                                "operator A",
                                runs.get(0).id(),
                                heroRuns.get(0).id(),
                                List.of(TRIMS)))
                .expect(201)
                .as(Match.class);
        withdraw(match, null);
        bothSayTheSame("a match that was none");
    }

    @Test
    void aRepeatChangesNothingAndWhatIsRefusedNeither() {
        matchedRooms();
        var match = signedFor("operator A");
        var path = "/matches/" + match.id() + "/withdrawal";
        var untouched = Picture.of(engineer(), mistaken.studio);
        engineer().post(path, new MatchWithdrawalDraft("mistake", "operator A")).expect(400);
        engineer().post(path, new MatchWithdrawalDraft("", "operator B")).expect(400);
        as(Role.PROBE).post(path, new MatchWithdrawalDraft("mistake", null)).expect(403);
        engineer()
                .post("/matches/" + UUID.randomUUID() + "/withdrawal", new MatchWithdrawalDraft("mistake", null))
                .expect(404);
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(untouched);

        var first = withdraw(match, "operator B");
        var before = Picture.of(engineer(), mistaken.studio);
        assertThat(engineer()
                        .post(path, new MatchWithdrawalDraft("again", "operator B"))
                        .expect(200)
                        .as(WithdrawnMatch.class))
                .isEqualTo(first);
        assertThat(engineer()
                        .post(path, new MatchWithdrawalDraft("again", "operator C"))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("entered again for operator B");
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void wheneverTheWrongOperatorIsPutRightTheBookIsTheSame(long seed) {
        var random = new Random(seed);
        matchedRooms();
        var wrong = random.nextBoolean() ? "operator A" : "operator C";
        var match = signedFor(wrong);
        var steps = random.nextInt(4);
        for (var step = 0; step < steps; step++) {
            var preset = random.nextInt(3);
            switch (random.nextInt(4)) {
                case 0 -> measure(preset, Purpose.AS_LEFT, dimmed(0.98 + 0.02 * random.nextDouble()));
                case 1 -> signOff(1, "operator D", tinted(0.01 * random.nextDouble(), 0));
                default -> measure(preset, Purpose.CHECK, tinted(0.02 * random.nextDouble(), 0));
            }
        }
        withdraw(match, "operator B");
        bothSayTheSame("seed " + seed);
    }
}
