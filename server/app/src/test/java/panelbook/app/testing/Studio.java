package panelbook.app.testing;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.wire.CertificateDraft;
import panelbook.wire.DisplayDraft;
import panelbook.wire.EotfKind;
import panelbook.wire.FacilityDraft;
import panelbook.wire.HeroDraft;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Match;
import panelbook.wire.PresetDraft;
import panelbook.wire.Primaries;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.RoomDraft;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.SignOffDraft;
import panelbook.wire.TargetDraft;
import panelbook.wire.ToleranceSet;
import panelbook.wire.Trim;

/**
 * A facility of one room for a test, with a hero and as many followers as it asks for, and a meter. Its displays measure
 * exactly as their target asks, unless a run is bent on purpose.
 */
public final class Studio {

    /** PQ, P3 primaries with D65 white, 1000 cd/m², 10 bit narrow. */
    public static final Target TARGET = new Target(
            RgbSpace.P3_D65, new Eotf.Pq(), new CodeValues(SignalRange.NARROW, 10), new LuminanceRange(0.001, 1000));

    private static final String TOLERANCES = "HDR grading";

    private final Http service;
    private final String name;
    private final UUID facility = UUID.randomUUID();
    private final UUID room = UUID.randomUUID();
    private final UUID target = UUID.randomUUID();
    private final UUID instrument = UUID.randomUUID();
    private final UUID hero;

    /** Enters the studio. */
    public Studio(Http engineer, String name) {
        this.service = engineer;
        this.name = name;
        engineer.post("/facilities", new FacilityDraft(facility, name, "Europe/Lisbon"))
                .expect(201);
        engineer.post("/rooms", new RoomDraft(room, facility, "Grading 1", null))
                .expect(201);
        var set = engineer.get("/tolerance-sets?name=" + TOLERANCES)
                .asPageOf(ToleranceSet.class)
                .items()
                .get(0);
        engineer.post("/targets", target(set.id())).expect(201);
        meter(instrument, name + " meter", Instant.parse("2036-01-01T00:00:00Z"));
        this.hero = display("Hero", "oled");
        engineer.post("/rooms/" + room + "/heroes", new HeroDraft(hero, null));
    }

    private TargetDraft target(UUID toleranceSet) {
        var space = TARGET.space();
        return new TargetDraft(
                target,
                name + " PQ 1000",
                new Primaries(
                        space.red().x(),
                        space.red().y(),
                        space.green().x(),
                        space.green().y(),
                        space.blue().x(),
                        space.blue().y(),
                        space.white().x(),
                        space.white().y()),
                EotfKind.PQ,
                null,
                panelbook.wire.SignalRange.NARROW,
                10,
                TARGET.aims().white(),
                TARGET.aims().black(),
                toleranceSet);
    }

    /** Enters a meter whose certificate ends on the day of {@code until}; without one when null. */
    public UUID meter(UUID id, String meterName, @Nullable Instant until) {
        service.post(
                        "/instruments",
                        new InstrumentDraft(
                                id, meterName, InstrumentKind.SPECTRORADIOMETER, null, 2.0, 0.2, 0.001, 0.0002, 0.0002))
                .expect(201);
        if (until != null) {
            var last = until.atOffset(java.time.ZoneOffset.UTC).toLocalDate();
            service.post(
                            "/instruments/" + id + "/certificates",
                            new CertificateDraft(UUID.randomUUID(), "C-1", last.minusYears(10), last))
                    .expect(201);
        }
        return id;
    }

    /** Enters a display with one preset in the room. */
    public UUID display(String displayName, String technology) {
        var display = UUID.randomUUID();
        var preset = UUID.randomUUID();
        service.post(
                        "/displays",
                        new DisplayDraft(
                                display, facility, room, displayName, "model " + technology, technology, null, null))
                .expect(201);
        service.post("/presets", new PresetDraft(preset, display, "User 1", target))
                .expect(201);
        return preset;
    }

    /** Preset of the hero. */
    public UUID hero() {
        return hero;
    }

    /** The room. */
    public UUID room() {
        return room;
    }

    /** The facility. */
    public UUID facility() {
        return facility;
    }

    /** The target. */
    public UUID target() {
        return target;
    }

    /** The meter. */
    public UUID instrument() {
        return instrument;
    }

    /** Name of the facility, which all its names begin with. */
    public String name() {
        return name;
    }

    /** A run on a warm display that measures as the target asks, bent by {@code bend}. */
    public RunUpload run(UUID preset, Purpose purpose, Instant takenAt, UnaryOperator<XYZ> bend) {
        return run(preset, instrument, purpose, takenAt, 60, bend);
    }

    /** As {@link #run}, with the meter and the minutes since power-on that it is to have. */
    public RunUpload run(
            UUID preset,
            UUID meter,
            Purpose purpose,
            Instant takenAt,
            @Nullable Integer minutesSincePowerOn,
            UnaryOperator<XYZ> bend) {
        return new RunUpload(
                UUID.randomUUID(),
                preset,
                meter,
                purpose,
                "calibrator on duty",
                takenAt,
                null,
                minutesSincePowerOn,
                null,
                null,
                null,
                null,
                readings(bend));
    }

    /** The same run with a panel-hours counter. */
    public static RunUpload atPanelHours(RunUpload run, double hours) {
        return new RunUpload(
                run.id(),
                run.presetId(),
                run.instrumentId(),
                run.purpose(),
                run.operator(),
                run.takenAt(),
                hours,
                run.minutesSincePowerOn(),
                run.ambientIlluminanceLux(),
                run.fileName(),
                run.remarks(),
                run.baselineReason(),
                run.readings());
    }

    /** What the patches of a usual run measure. */
    public static List<ReadingEntry> readings(UnaryOperator<XYZ> bend) {
        var expected = TARGET.on(TARGET.aims());
        var entries = new ArrayList<ReadingEntry>();
        for (var patch : patches()) {
            var xyz = bend.apply(expected.of(patch));
            entries.add(new ReadingEntry(patch.red(), patch.green(), patch.blue(), xyz.x(), xyz.y(), xyz.z()));
        }
        return entries;
    }

    private static List<Patch> patches() {
        var patches = new ArrayList<Patch>();
        var codes = TARGET.codes();
        for (var step = 0; step <= 10; step++) {
            patches.add(Patch.grey(codes.toCode(step / 10.0)));
        }
        var top = codes.toCode(0.6);
        var bottom = codes.black();
        patches.add(new Patch(top, bottom, bottom));
        patches.add(new Patch(bottom, top, bottom));
        patches.add(new Patch(bottom, bottom, top));
        return patches;
    }

    /** Uploads a run as the engineer and gives the verdict on it. */
    public RunVerdict upload(RunUpload run) {
        return service.post("/runs", run).expect(201).as(RunVerdict.class);
    }

    /** Signs off, without trims. */
    public Match signOff(UUID follower, String operator, RunUpload followerRun, RunUpload heroRun) {
        return service.post("/matches", signOffDraft(follower, operator, followerRun.id(), heroRun.id(), List.of()))
                .expect(201)
                .as(Match.class);
    }

    /** A sign-off of a follower against the hero of the studio. */
    public SignOffDraft signOffDraft(UUID follower, String operator, UUID followerRun, UUID heroRun, List<Trim> trims) {
        return new SignOffDraft(
                UUID.randomUUID(),
                follower,
                hero,
                operator,
                followerRun,
                heroRun,
                trims,
                "night interiors",
                null,
                null);
    }

    /** As it should be. */
    public static UnaryOperator<XYZ> asAimed() {
        return xyz -> xyz;
    }

    /** Brighter or darker by a share, 0.9 for 10 % less light. */
    public static UnaryOperator<XYZ> dimmed(double factor) {
        return xyz -> xyz.times(factor);
    }

    /** Greys moved by this much in u′v′ with their luminance kept, as by trims of the gains; other colours go along. */
    public static UnaryOperator<XYZ> tinted(double du, double dv) {
        var white = TARGET.white();
        var uv = white.uv1976().orElseThrow();
        var moved = XYZ.of(new UV1976(uv.u() + du, uv.v() + dv), white.luminance());
        return xyz -> new XYZ(xyz.x() * moved.x() / white.x(), xyz.y(), xyz.z() * moved.z() / white.z());
    }
}
