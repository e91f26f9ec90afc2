package panelbook.app.testing;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AlertCause;
import panelbook.wire.Calibrator;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.CertificateDraft;
import panelbook.wire.Channel;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelKind;
import panelbook.wire.Display;
import panelbook.wire.DisplayDraft;
import panelbook.wire.EotfKind;
import panelbook.wire.Facility;
import panelbook.wire.FacilityDraft;
import panelbook.wire.Hero;
import panelbook.wire.HeroDraft;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.MatchStory;
import panelbook.wire.NewChannel;
import panelbook.wire.OpeningDraft;
import panelbook.wire.Plan;
import panelbook.wire.PlanDraft;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Primaries;
import panelbook.wire.Quirk;
import panelbook.wire.QuirkDraft;
import panelbook.wire.Room;
import panelbook.wire.RoomDraft;
import panelbook.wire.SignalRange;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import panelbook.wire.Trim;
import panelbook.wire.Visit;
import panelbook.wire.VisitDraft;
import panelbook.wire.Weekday;
import panelbook.wire.WorkingHours;

/** Adds the things that a test needs, through the service's own door and under names of their own. */
public final class Samples {

    /** The tolerance set "HDR grading" that comes with the book. */
    public static final UUID HDR_GRADING = UUID.fromString("6f1c0f5e-0000-4000-8000-000000000001");

    /** BT.2020 primaries with D65, ITU-R BT.2020-2 table 3. */
    public static final Primaries BT2020 = new Primaries(0.708, 0.292, 0.170, 0.797, 0.131, 0.046, 0.3127, 0.3290);

    private final Http engineer;

    public Samples(Http engineer) {
        this.engineer = engineer;
    }

    public Facility facility() {
        var draft = new FacilityDraft(UUID.randomUUID(), ServiceTest.unique("House"), "Europe/Lisbon");
        return engineer.post("/facilities", draft).expect(201).as(Facility.class);
    }

    /** A channel to nowhere. */
    public Channel channel(UUID facilityId) {
        return engineer.post("/channels", channelDraft(facilityId))
                .expect(201)
                .as(NewChannel.class)
                .channel();
    }

    public static ChannelDraft channelDraft(UUID facilityId) {
        return new ChannelDraft(
                UUID.randomUUID(),
                ServiceTest.unique("Channel"),
                ChannelKind.WEBHOOK,
                facilityId,
                List.of(AlertCause.MOVED),
                false,
                List.of(),
                "http://127.0.0.1:9/alerts");
    }

    public Room room(UUID facilityId) {
        var draft = new RoomDraft(UUID.randomUUID(), facilityId, ServiceTest.unique("Grading"), null);
        return engineer.post("/rooms", draft).expect(201).as(Room.class);
    }

    public Display display(UUID facilityId, @Nullable UUID roomId) {
        return engineer.post("/displays", displayDraft(facilityId, roomId))
                .expect(201)
                .as(Display.class);
    }

    public static DisplayDraft displayDraft(UUID facilityId, @Nullable UUID roomId) {
        return new DisplayDraft(
                UUID.randomUUID(), facilityId, roomId, ServiceTest.unique("Display"), "Model K", "oled", "SN 1", null);
    }

    public Target target() {
        return engineer.post("/targets", targetDraft()).expect(201).as(Target.class);
    }

    public static TargetDraft targetDraft() {
        return new TargetDraft(
                UUID.randomUUID(),
                ServiceTest.unique("HDR 1000"),
                BT2020,
                EotfKind.PQ,
                null,
                SignalRange.FULL,
                10,
                1000,
                0.0005,
                HDR_GRADING);
    }

    public Preset preset(UUID displayId, UUID targetId) {
        var draft = new PresetDraft(UUID.randomUUID(), displayId, ServiceTest.unique("Slot"), targetId);
        return engineer.post("/presets", draft).expect(201).as(Preset.class);
    }

    public Quirk quirk(UUID displayId) {
        var draft = new QuirkDraft(UUID.randomUUID(), "The menu dims the picture while it is open.", null);
        return engineer.post("/displays/" + displayId + "/quirks", draft)
                .expect(201)
                .as(Quirk.class);
    }

    /** A match under way, with a trim. */
    public MatchStory story(UUID followerPresetId, UUID heroPresetId) {
        var opening = new OpeningDraft(
                UUID.randomUUID(), followerPresetId, heroPresetId, "operator A", null, 30, null, true, List.of(), null);
        engineer.post("/match-stories", opening).expect(201);
        var trim = new StepDraft(
                UUID.randomUUID(),
                1,
                StepKind.TRIM,
                null,
                new Trim("gain.red", "all", -1),
                null,
                null,
                null,
                null,
                null,
                null,
                ServiceTest.START);
        engineer.post("/match-stories/" + opening.id() + "/steps", trim).expect(201);
        return engineer.get("/match-stories/" + opening.id()).expect(200).as(MatchStory.class);
    }

    /** Works on Mondays. */
    public Calibrator calibrator(UUID facilityId) {
        var week = List.of(new WorkingHours(Weekday.MONDAY, "09:00", "17:00"));
        var draft = new CalibratorDraft(
                UUID.randomUUID(), ServiceTest.unique("Calibrator"), facilityId, List.of("oled"), week);
        return engineer.post("/calibrators", draft).expect(201).as(Calibrator.class);
    }

    /** In the far future, at any hour. */
    public Visit visit(UUID roomId, UUID calibratorId, UUID presetId) {
        var draft = new VisitDraft(
                UUID.randomUUID(),
                roomId,
                calibratorId,
                Instant.parse("2035-01-01T10:00:00Z"),
                List.of(presetId),
                null,
                "a sample",
                true);
        return engineer.post("/visits", draft).expect(201).as(Visit.class);
    }

    /** Of six weeks round the visit. */
    public Plan plan(UUID facilityId) {
        var from = LocalDate.parse("2034-12-01");
        var draft = new PlanDraft(UUID.randomUUID(), facilityId, from, from.plusDays(41), false, null);
        return engineer.post("/plans", draft).expect(201).as(Plan.class);
    }

    public Hero hero(UUID roomId, UUID presetId) {
        return engineer.post("/rooms/" + roomId + "/heroes", new HeroDraft(presetId, null))
                .expect(201)
                .as(Hero.class);
    }

    /** With a certificate that holds from 2026-01-01 to 2026-12-31. */
    public Instrument instrument() {
        var instrument =
                engineer.post("/instruments", instrumentDraft()).expect(201).as(Instrument.class);
        var certificate = new CertificateDraft(
                UUID.randomUUID(), "C 1", LocalDate.parse("2026-01-01"), LocalDate.parse("2026-12-31"));
        engineer.post("/instruments/" + instrument.id() + "/certificates", certificate)
                .expect(201);
        return instrument;
    }

    public static InstrumentDraft instrumentDraft() {
        return new InstrumentDraft(
                UUID.randomUUID(),
                ServiceTest.unique("Meter"),
                InstrumentKind.COLORIMETER,
                null,
                4,
                0.2,
                0.003,
                0.0003,
                0.0002);
    }
}
