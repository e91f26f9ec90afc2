package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Display;
import panelbook.wire.DisplayDraft;
import panelbook.wire.Facility;
import panelbook.wire.Hero;
import panelbook.wire.HeroDraft;
import panelbook.wire.MoveDraft;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Retirement;
import panelbook.wire.Role;
import panelbook.wire.Room;
import panelbook.wire.Stay;

class DisplaysTest extends ServiceTest {

    private Samples samples;
    private Facility facility;
    private Room first;
    private Room second;

    @BeforeEach
    void twoRooms() {
        samples = new Samples(engineer());
        facility = samples.facility();
        first = samples.room(facility.id());
        second = samples.room(facility.id());
        clock.advance(Duration.ofHours(1));
    }

    @Test
    void aDisplayIsReadAsItWasAddedAndStandsInItsRoom() {
        var draft = new DisplayDraft(
                UUID.randomUUID(), facility.id(), first.id(), "Hero A", "Model K", "oled", "SN 7", "Flickers\nat 24p");

        var display = engineer().post("/displays", draft).expect(201).as(Display.class);

        assertThat(display)
                .isEqualTo(new Display(
                        draft.id(),
                        facility.id(),
                        facility.name(),
                        first.id(),
                        first.name(),
                        "Hero A",
                        "Model K",
                        "oled",
                        "SN 7",
                        "Flickers\nat 24p",
                        null,
                        null,
                        0));
        assertThat(engineer().post("/displays", draft).expect(200).as(Display.class))
                .isEqualTo(display);
        assertThat(engineer().all("/displays?room=" + first.id(), Display.class))
                .containsExactly(display);
        assertThat(engineer().all("/displays?facility=" + facility.id() + "&name=Hero A", Display.class))
                .containsExactly(display);
    }

    @Test
    void everyStayOfADisplayIsKeptWithWhoMovedItAndWhy() {
        var arrived = clock.instant();
        var display = samples.display(facility.id(), first.id());
        var moved = clock.advance(Duration.ofDays(10));
        var move = new MoveDraft(UUID.randomUUID(), second.id(), null, "room rebuilt");

        assertThat(move(display, move).expect(200).as(Display.class).room()).isEqualTo(second.name());
        var left = clock.advance(Duration.ofDays(1));
        assertThat(move(display, new MoveDraft(UUID.randomUUID(), null, null, "lent"))
                        .expect(200)
                        .as(Display.class)
                        .roomId())
                .isNull();

        assertThat(stays(display))
                .containsExactly(
                        new Stay(
                                move.id(),
                                display.id(),
                                second.id(),
                                second.name(),
                                moved,
                                left,
                                "first engineer",
                                "room rebuilt; left: lent"),
                        new Stay(
                                stays(display).get(1).id(),
                                display.id(),
                                first.id(),
                                first.name(),
                                arrived,
                                moved,
                                "first engineer",
                                null));
    }

    @Test
    void theSameMoveAgainChangesNothing() {
        var display = samples.display(facility.id(), first.id());
        clock.advance(Duration.ofDays(1));
        var move = new MoveDraft(UUID.randomUUID(), second.id(), clock.instant(), null);
        move(display, move).expect(200);
        var before = stays(display);
        clock.advance(Duration.ofDays(1));

        move(display, move).expect(200);

        assertThat(stays(display)).isEqualTo(before);
        var other = new MoveDraft(move.id(), first.id(), null, null);
        assertThat(move(display, other).expect(409).problem().detail()).contains("says something else");
    }

    @Test
    void aMoveBackInTimeOrIntoTheFutureIsRefused() {
        var arrived = clock.instant();
        var display = samples.display(facility.id(), first.id());
        clock.advance(Duration.ofDays(1));

        var back = new MoveDraft(UUID.randomUUID(), second.id(), arrived, null);
        assertThat(move(display, back).expect(409).problem().detail())
                .contains("came to \"" + first.name() + "\"")
                .contains("later time");
        var ahead =
                new MoveDraft(UUID.randomUUID(), second.id(), clock.instant().plusSeconds(1), null);
        assertThat(move(display, ahead).expect(400).problem().errors())
                .extracting("pointer")
                .containsExactly("/at");
        assertThat(stays(display)).hasSize(1);
    }

    @Test
    void aStayThatOverlapsAnEarlierOneIsRefused() {
        var display = samples.display(facility.id(), first.id());
        clock.advance(Duration.ofDays(2));
        move(display, new MoveDraft(UUID.randomUUID(), null, null, null)).expect(200);
        clock.advance(Duration.ofDays(2));

        var overlapping =
                new MoveDraft(UUID.randomUUID(), second.id(), clock.instant().minus(Duration.ofDays(3)), null);

        assertThat(move(display, overlapping).expect(409).problem().detail())
                .contains("cannot have stood in two at once");
    }

    @Test
    void aDisplayMovesIntoAnotherFacilityOnlyByWayOfNoRoom() {
        var display = samples.display(facility.id(), first.id());
        var elsewhere = samples.facility();
        var there = samples.room(elsewhere.id());
        clock.advance(Duration.ofDays(1));
        var edit =
                new DisplayDraft(display.id(), elsewhere.id(), null, display.name(), "Model K", "oled", "SN 1", null);
        var path = "/displays/" + display.id();

        assertThat(move(display, new MoveDraft(UUID.randomUUID(), there.id(), null, null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("another facility");
        assertThat(engineer().put(path, edit, "\"0\"").expect(409).problem().detail())
                .contains("out of every room");

        move(display, new MoveDraft(UUID.randomUUID(), null, null, null)).expect(200);
        engineer().put(path, edit, "\"0\"").expect(200);
        var moved = move(display, new MoveDraft(UUID.randomUUID(), there.id(), null, null))
                .expect(200)
                .as(Display.class);
        assertThat(moved.facility()).isEqualTo(elsewhere.name());
        assertThat(moved.room()).isEqualTo(there.name());
    }

    @Test
    void aDisplayThatLeavesItsRoomIsNoLongerItsHero() {
        var display = samples.display(facility.id(), first.id());
        var target = samples.target();
        var preset = samples.preset(display.id(), target.id());
        var named = samples.hero(first.id(), preset.id());
        assertThat(get(preset).hero()).isTrue();
        clock.advance(Duration.ofDays(1));

        move(display, new MoveDraft(UUID.randomUUID(), second.id(), null, null)).expect(200);

        assertThat(get(preset).hero()).isFalse();
        assertThat(engineer().get("/rooms/" + first.id() + "/heroes").asListOf(Hero.class))
                .isEmpty();
        assertThat(engineer()
                        .get("/rooms/" + first.id() + "/heroes?history=true")
                        .asListOf(Hero.class))
                .containsExactly(new Hero(
                        first.id(),
                        target.id(),
                        target.name(),
                        preset.id(),
                        display.name(),
                        preset.name(),
                        named.from(),
                        clock.instant(),
                        "first engineer"));
    }

    @Test
    void aRoomHasOneHeroPerTargetAndKeepsTheFormerOnes() {
        var target = samples.target();
        var a = samples.preset(samples.display(facility.id(), first.id()).id(), target.id());
        var b = samples.preset(samples.display(facility.id(), first.id()).id(), target.id());
        samples.hero(first.id(), a.id());
        var heroes = "/rooms/" + first.id() + "/heroes";
        engineer().post(heroes, new HeroDraft(a.id(), null)).expect(200);
        assertThat(engineer()
                        .post(heroes, new HeroDraft(b.id(), null))
                        .expect(409)
                        .problem()
                        .detail())
                .as("at the very moment of the one before")
                .contains("later than that");
        clock.advance(Duration.ofDays(1));

        engineer().post(heroes, new HeroDraft(b.id(), null)).expect(201);

        assertThat(engineer().get(heroes).asListOf(Hero.class))
                .extracting(Hero::presetId)
                .containsExactly(b.id());
        assertThat(engineer().get(heroes + "?history=true").asListOf(Hero.class))
                .extracting(Hero::presetId)
                .containsExactly(b.id(), a.id());
    }

    @Test
    void aHeroMustStandInTheRoomAtThatTime() {
        var target = samples.target();
        var away = samples.preset(samples.display(facility.id(), second.id()).id(), target.id());
        var heroes = "/rooms/" + first.id() + "/heroes";

        assertThat(engineer()
                        .post(heroes, new HeroDraft(away.id(), null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("does not stand in the room");
        var here = samples.preset(samples.display(facility.id(), first.id()).id(), target.id());
        var before = new HeroDraft(here.id(), clock.instant().minusSeconds(1));
        assertThat(engineer().post(heroes, before).expect(400).problem().errors())
                .extracting("pointer")
                .containsExactly("/from");
        assertThat(engineer()
                        .post(heroes, new HeroDraft(UUID.randomUUID(), null))
                        .expect(400)
                        .problem()
                        .errors())
                .extracting("pointer")
                .containsExactly("/presetId");
    }

    @Test
    void aRetiredDisplayLeavesItsRoomAndTakesItsPresetsAlong() {
        var display = samples.display(facility.id(), first.id());
        var preset = samples.preset(display.id(), samples.target().id());
        samples.hero(first.id(), preset.id());
        clock.advance(Duration.ofDays(1));

        var retired = engineer()
                .post("/displays/" + display.id() + "/retirement", new Retirement("panel broken"))
                .expect(200)
                .as(Display.class);

        assertThat(retired.retiredAt()).isEqualTo(clock.instant());
        assertThat(retired.roomId()).isNull();
        assertThat(get(preset).retiredAt()).isEqualTo(clock.instant());
        assertThat(get(preset).hero()).isFalse();
        assertThat(move(display, new MoveDraft(UUID.randomUUID(), second.id(), null, null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("is retired");
    }

    @Test
    void aPresetIsFoundByItsPathAndKeepsItsTarget() {
        var display = samples.display(facility.id(), first.id());
        var preset = samples.preset(display.id(), samples.target().id());

        var inRoom = String.join("/", first.name(), display.name(), preset.name());
        assertThat(presetsAt(inRoom)).containsExactly(preset);
        assertThat(presetsAt(facility.name() + "/" + inRoom)).containsExactly(preset);
        assertThat(presetsAt("Nowhere/" + display.name() + "/" + preset.name())).isEmpty();
        assertThat(engineer().get("/presets?path=a/b").expect(400).problem().detail())
                .contains("ROOM/DISPLAY/PRESET");
        var other = new PresetDraft(
                preset.id(), display.id(), preset.name(), samples.target().id());
        assertThat(engineer()
                        .put("/presets/" + preset.id(), other, "\"0\"")
                        .expect(400)
                        .problem()
                        .detail())
                .contains("another preset");

        clock.advance(Duration.ofDays(1));
        move(display, new MoveDraft(UUID.randomUUID(), null, null, null)).expect(200);
        assertThat(presetsAt(String.join("/", facility.name(), "-", display.name(), preset.name())))
                .extracting(Preset::id)
                .containsExactly(preset.id());
    }

    @Test
    void aCounterThatGoesBackNeedsANote() {
        var display = samples.display(facility.id(), first.id());
        var path = "/displays/" + display.id() + "/panel-hours";
        var draft = new PanelHoursDraft(1200.5, clock.instant(), null);
        var calibrator = as(Role.CALIBRATOR);
        var entered = calibrator.post(path, draft).expect(201).as(PanelHours.class);
        calibrator.post(path, draft).expect(200);
        clock.advance(Duration.ofDays(1));

        assertThat(calibrator
                        .post(path, new PanelHoursDraft(3, null, null))
                        .expect(400)
                        .problem()
                        .detail())
                .contains("stood at 1200.5 h")
                .contains("say so in the note");
        var swapped = calibrator
                .post(path, new PanelHoursDraft(3, null, "panel swapped"))
                .expect(201)
                .as(PanelHours.class);

        assertThat(calibrator.all(path + "?limit=1", PanelHours.class)).containsExactly(swapped, entered);
        assertThat(engineer().get("/displays/" + display.id()).as(Display.class).panelHours())
                .isEqualTo(3);
        assertThat(calibrator
                        .post(path, new PanelHoursDraft(-1, null, null))
                        .expect(400)
                        .problem()
                        .errors())
                .extracting("pointer")
                .containsExactly("/hours");
    }

    private Answer move(Display display, MoveDraft draft) {
        return engineer().post("/displays/" + display.id() + "/moves", draft);
    }

    private List<Stay> stays(Display display) {
        return engineer().get("/displays/" + display.id() + "/stays").asListOf(Stay.class);
    }

    private Preset get(Preset preset) {
        return engineer().get("/presets/" + preset.id()).as(Preset.class);
    }

    private List<Preset> presetsAt(String path) {
        return engineer().all("/presets?path=" + path, Preset.class);
    }
}
