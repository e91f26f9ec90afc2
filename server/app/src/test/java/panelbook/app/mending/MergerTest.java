package panelbook.app.mending;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.util.List;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.app.testing.Samples;
import panelbook.wire.Display;
import panelbook.wire.HeroDraft;
import panelbook.wire.Match;
import panelbook.wire.MergedDisplay;
import panelbook.wire.MergerDraft;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Purpose;
import panelbook.wire.QuirkDraft;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Retirement;
import panelbook.wire.Role;
import panelbook.wire.Run;
import panelbook.wire.RunUpload;
import panelbook.wire.SettlementDraft;
import panelbook.wire.SignOffDraft;
import panelbook.wire.Stay;
import panelbook.wire.Trim;

/** A display that was entered twice becomes one. */
class MergerTest extends TwinRooms {

    /** Second entry of the display of follower 1, by its preset. */
    private UUID again;

    @BeforeEach
    void enterFollower1Twice() {
        again = mistaken.studio.display("Follower 1 bis", "lcd");
        tick();
    }

    private UUID displayOf(UUID preset) {
        return engineer().get("/presets/" + preset).as(Preset.class).displayId();
    }

    private MergerDraft draft() {
        return new MergerDraft(displayOf(mistaken.one), List.of(), "the plate says so");
    }

    private String path() {
        return "/displays/" + displayOf(again) + "/merger";
    }

    private MergedDisplay merge() {
        return engineer().post(path(), draft()).expect(201).as(MergedDisplay.class);
    }

    /** From now on the room with the mistake takes the second entry for follower 1. */
    private void mixedUp() {
        mistaken.meant = n -> n == 1 ? again : mistaken.preset(n);
    }

    private void sortedOut() {
        mistaken.meant = mistaken::preset;
    }

    /** A match of follower 1, of whichever entry is taken for it. */
    private void match(String operator, double du) {
        tick();
        for (var twin : List.of(mistaken, right)) {
            var follower = twin.meant.apply(1);
            var heroRun = twin.studio.run(twin.hero, Purpose.MATCH, now, asAimed());
            var followerRun = twin.studio.run(follower, Purpose.MATCH, now, tinted(du, 0));
            twin.studio.upload(heroRun);
            twin.studio.upload(followerRun);
            var draft = twin.studio.signOffDraft(
                    follower, operator, followerRun.id(), heroRun.id(), List.of(new Trim("gain.red", "all", (int)
                            (1000 * du))));
            engineer().post("/matches", draft).expect(201).as(Match.class);
        }
    }

    @Test
    void theRunsMatchesQuirksAndHoursOfBothEntriesAreThoseOfOneDisplay() {
        measure(0, Purpose.AS_LEFT, asAimed());
        measure(2, Purpose.AS_LEFT, asAimed());
        measure(1, Purpose.AS_LEFT, dimmed(0.99));
        match("operator A", 0.012);
        mixedUp();
        measure(1, Purpose.AS_LEFT, asAimed());
        match("operator A", 0.014);
        match("operator B", 0.02);
        inBoth((twin, at) -> {
            var display = displayOf(twin.meant.apply(1));
            engineer()
                    .post("/displays/" + display + "/panel-hours", new PanelHoursDraft(1250, at, "read in the menu"))
                    .expect(201);
            var quirk = new QuirkDraft(UUID.randomUUID(), "the menu dims the picture", at);
            engineer().post("/displays/" + display + "/quirks", quirk).expect(201);
            var settled = new QuirkDraft(UUID.randomUUID(), "a converter sits in its feed", at);
            engineer().post("/displays/" + display + "/quirks", settled).expect(201);
            engineer()
                    .post("/quirks/" + settled.id() + "/settlement", new SettlementDraft("taken out"))
                    .expect(200);
        });
        sortedOut();
        measure(1, Purpose.CHECK, tinted(0.014, 0));
        mixedUp();
        measure(1, Purpose.CHECK, tinted(0.03, 0));

        var merged = merge();

        bothSayTheSame("a display entered twice");
        assertThat(merged.presets()).singleElement().satisfies(preset -> {
            assertThat(preset.runs()).isEqualTo(4);
            assertThat(preset.matches()).isEqualTo(2);
            assertThat(preset.hero()).isFalse();
        });
        sortedOut();
        measure(1, Purpose.CHECK, tinted(0.02, 0));
        bothSayTheSame("a display entered twice, and what came after");
    }

    @Test
    void twoPresetsOfTheDuplicateDoNotBecomeOneUnseen() {
        mixedUp();
        measure(1, Purpose.AS_LEFT, asAimed());
        var second = new PresetDraft(UUID.randomUUID(), displayOf(again), "User 2", mistaken.studio.target());
        engineer().post("/presets", second).expect(201);
        var pair = new MergerDraft.PresetPair(second.id(), mistaken.one);
        var before = Picture.of(engineer(), mistaken.studio);
        assertThat(engineer()
                        .post(path(), new MergerDraft(displayOf(mistaken.one), List.of(pair), "the plate says so"))
                        .expect(400)
                        .problem()
                        .errors())
                .singleElement()
                .satisfies(wrong -> assertThat(wrong.detail()).contains("give that pair, too"));
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);
    }

    @Test
    void theDuplicateIsRetiredWithAWordAndItsHistoryStays() {
        measure(0, Purpose.AS_LEFT, asAimed());
        mixedUp();
        measure(1, Purpose.AS_LEFT, asAimed());
        match("operator A", 0.014);
        var duplicate = displayOf(again);
        merge();

        assertThat(engineer().get("/displays/" + duplicate).as(Display.class).retiredAt())
                .isEqualTo(now);
        assertThat(engineer().get("/displays/" + duplicate + "/stays").asListOf(Stay.class))
                .singleElement()
                .satisfies(stay -> assertThat(stay.reason()).contains("Entered twice: it is \"Follower 1\"."));
        assertThat(engineer().all("/runs?preset=" + again, Run.class))
                .hasSize(2)
                .allSatisfy(run -> {
                    assertThat(run.withdrawn().reason()).contains("is the display \"Follower 1\": the plate says so");
                    assertThat(engineer()
                                    .get("/runs/" + run.withdrawn().replacedBy())
                                    .as(Run.class)
                                    .presetId())
                            .isEqualTo(mistaken.one);
                });
        assertThat(engineer().all("/matches?follower=" + again, Match.class))
                .singleElement()
                .satisfies(match -> assertThat(match.withdrawn().replacedBy()).isNotNull());
    }

    @Test
    void aHeroThatWasEnteredTwiceIsOneHero() {
        var twice = mistaken.studio.display("Hero bis", "oled");
        tick();
        measure(0, Purpose.AS_LEFT, dimmed(0.99));
        engineer()
                .post("/rooms/" + mistaken.studio.room() + "/heroes", new HeroDraft(twice, null))
                .expect(201);
        tick();
        mistaken.meant = n -> n == 0 ? twice : mistaken.preset(n);
        measure(0, Purpose.AS_LEFT, asAimed());
        measure(1, Purpose.AS_LEFT, asAimed());
        measure(2, Purpose.AS_LEFT, asAimed());
        tick();
        for (var twin : List.of(mistaken, right)) {
            var hero = twin.meant.apply(0);
            var heroRun = twin.studio.run(hero, Purpose.MATCH, now, asAimed());
            var followerRun = twin.studio.run(twin.one, Purpose.MATCH, now, tinted(0.01, 0));
            twin.studio.upload(heroRun);
            twin.studio.upload(followerRun);
            engineer()
                    .post(
                            "/matches",
                            new SignOffDraft(
                                    UUID.randomUUID(),
                                    twin.one,
                                    hero,
                                    "operator A",
                                    followerRun.id(),
                                    heroRun.id(),
                                    List.of(),
                                    "skin",
                                    null,
                                    null))
                    .expect(201);
        }
        measure(0, Purpose.CHECK, dimmed(0.85));
        engineer()
                .post("/displays/" + displayOf(again) + "/retirement", new Retirement(null))
                .expect(200);
        var merged = engineer()
                .post(
                        "/displays/" + displayOf(twice) + "/merger",
                        new MergerDraft(displayOf(mistaken.hero), List.of(), "one plate"))
                .expect(201)
                .as(MergedDisplay.class);
        assertThat(merged.presets())
                .singleElement()
                .satisfies(preset -> assertThat(preset.hero()).isTrue());
        bothSayTheSame("a hero entered twice");
    }

    @Test
    void aRepeatChangesNothingAndGetsTheFirstAnswer() {
        mixedUp();
        measure(1, Purpose.AS_LEFT, asAimed());
        var first = merge();
        var before = Picture.of(engineer(), mistaken.studio);
        tick();
        assertThat(engineer().post(path(), draft()).expect(200).as(MergedDisplay.class))
                .isEqualTo(first);
        var elsewhere = new MergerDraft(displayOf(mistaken.other), List.of(), "no, that one");
        assertThat(engineer().post(path(), elsewhere).expect(409).problem().detail())
                .contains("merged already, into Follower 1");
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);
    }

    @Test
    void presetsThatHaveNoCounterpartAreListedWithWhatToDoAndNothingIsChanged() {
        mixedUp();
        measure(1, Purpose.AS_LEFT, asAimed());
        var samples = new Samples(engineer());
        var other = samples.preset(displayOf(again), samples.target().id());
        var strange = samples.preset(displayOf(mistaken.one), other.targetId());
        var run = new RunUpload(
                UUID.randomUUID(),
                other.id(),
                mistaken.studio.instrument(),
                Purpose.CHECK,
                "Mara",
                now,
                null,
                60,
                null,
                null,
                null,
                null,
                List.of(new ReadingEntry(1023, 1023, 1023, 900, 1000, 1100)));
        engineer().post("/runs", run).expect(201);
        var before = Picture.of(engineer(), mistaken.studio);

        assertThat(engineer().post(path(), draft()).expect(400).problem().detail())
                .contains("has no preset \"" + other.name() + "\" in use: give the pair, or add a preset for");
        var crossed = new MergerDraft(
                displayOf(mistaken.one),
                List.of(new MergerDraft.PresetPair(other.id(), mistaken.one)),
                "the plate says so");
        assertThat(engineer().post(path(), crossed).expect(400).problem().detail())
                .contains("give a pair of presets for one target");
        engineer()
                .post(path(), new MergerDraft(displayOf(again), List.of(), "x"))
                .expect(400);
        engineer()
                .post(path(), new MergerDraft(UUID.randomUUID(), List.of(), "x"))
                .expect(400);
        engineer()
                .post(path(), new MergerDraft(displayOf(mistaken.one), List.of(), ""))
                .expect(400);
        as(Role.CALIBRATOR).post(path(), draft()).expect(403);
        assertThat(Picture.of(engineer(), mistaken.studio)).isEqualTo(before);

        var given = new MergerDraft(
                displayOf(mistaken.one),
                List.of(new MergerDraft.PresetPair(other.id(), strange.id())),
                "the plate says so");
        assertThat(engineer()
                        .post(path(), given)
                        .expect(201)
                        .as(MergedDisplay.class)
                        .presets())
                .as("the pair as given, the other by name")
                .hasSize(2);
    }

    /** Deeds on follower 1 that go to either entry as it comes. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void howeverTheTwoEntriesWereMixedUpTheyBecomeOne(long seed) {
        var random = new Random(seed);
        measure(0, Purpose.AS_LEFT, asAimed());
        measure(1, Purpose.AS_LEFT, asAimed());
        measure(2, Purpose.AS_LEFT, asAimed());
        for (var step = 0; step < 8; step++) {
            if (random.nextBoolean()) {
                mixedUp();
            } else {
                sortedOut();
            }
            // either clear of every limit or far beyond: what lingers depends on which alert was open
            var bend = random.nextInt(3) == 0 ? dimmed(0.8) : dimmed(0.99 + 0.005 * random.nextDouble());
            switch (random.nextInt(5)) {
                case 0 -> measure(1, Purpose.AS_LEFT, dimmed(0.99 + 0.01 * random.nextDouble()));
                case 1 -> match("operator " + random.nextInt(2), 0.01 + 0.01 * random.nextInt(2));
                case 2 -> measure(0, Purpose.CHECK, bend);
                default -> measure(1, Purpose.CHECK, bend);
            }
        }
        merge();
        bothSayTheSame("seed " + seed);
    }
}
