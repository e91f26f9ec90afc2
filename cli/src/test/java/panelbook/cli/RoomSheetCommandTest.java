package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.wire.AgreedOffset;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertState;
import panelbook.wire.AsLeft;
import panelbook.wire.Basis;
import panelbook.wire.Certificate;
import panelbook.wire.Decision;
import panelbook.wire.Deviation;
import panelbook.wire.Diagnosis;
import panelbook.wire.Display;
import panelbook.wire.EotfKind;
import panelbook.wire.Finding;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.Metric;
import panelbook.wire.OperatorDifference;
import panelbook.wire.Preset;
import panelbook.wire.Primaries;
import panelbook.wire.Purpose;
import panelbook.wire.Quirk;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.Room;
import panelbook.wire.RoomReadiness;
import panelbook.wire.RoomSheet;
import panelbook.wire.Run;
import panelbook.wire.SheetCorrection;
import panelbook.wire.SheetDisplay;
import panelbook.wire.SheetMeter;
import panelbook.wire.SheetPreset;
import panelbook.wire.SheetTarget;
import panelbook.wire.SignalRange;
import panelbook.wire.StoryState;
import panelbook.wire.Target;
import panelbook.wire.Trim;
import panelbook.wire.TrimOrigin;

/** The room sheet as a person reads it, as a pipe takes it, and off line. */
class RoomSheetCommandTest extends CommandTest {

    private static final Instant AT = Instant.parse("2026-03-31T11:00:00Z");
    private static final UUID HERO = UUID.randomUUID();
    private static final UUID FOLLOWER = UUID.randomUUID();
    private static final UUID MAIN = UUID.randomUUID();
    private static final UUID CLIENT = UUID.randomUUID();
    private static final UUID TARGET = UUID.randomUUID();
    private static final UUID METER = UUID.randomUUID();
    private static final UUID MATCH = UUID.randomUUID();
    private static final UUID OTHER_MATCH = UUID.randomUUID();
    private static final UUID AS_LEFT = UUID.randomUUID();
    private static final UUID HELD_ALERT = UUID.randomUUID();
    private static final UUID HOLDING_ALERT = UUID.randomUUID();

    @TempDir
    Path elsewhere;

    private UUID room;

    @BeforeEach
    void aSheet() {
        room = UUID.fromString(id("rooms", "Suite 1"));
        serve(sheet(AT, LocalDate.parse("2026-06-30")));
    }

    @Test
    void aPersonReadsEverythingAskedOnArrival() {
        desk.terminal = true;
        assertThat(desk.type("room", "sheet", "Suite 1"))
                .as("a room that is not ready")
                .isEqualTo(3);
        assertThat(desk.out.replaceAll("\\s+", " "))
                .contains(
                        "ROOM SHEET room North/Suite 1 as of 2026-03-31 12:00 Europe/Lisbon readiness not-ready",
                        "reason ready-with-remarks: Client/HDR: It was never matched to the hero of the room.",
                        "ALERTS Client/HDR acknowledged recalibration-due: It was calibrated 70 days ago.",
                        "acknowledged stepped: Peak luminance stepped by 30 %. since 2026-03-31 12:00; alert "
                                + HOLDING_ALERT
                                + " held back moved: Peak luminance fell by 30 %. explained by stepped on Client/HDR since",
                        "TARGET HDR 1000 aim P3 primaries, white D65; PQ, full range, 10 bit; peak 1000 cd/m², black 0.005 cd/m²",
                        "judged by House; warm up 30 minutes before measuring",
                        "Main/HDR role hero; M-31, oled",
                        "as left 2026-02-19, 40 days and 420 panel hours ago, by Mara with Meter 1",
                        "remarks left the menu closed",
                        "white 1000 cd/m², u′ 0.1978 v′ 0.4683, 6504 K, Duv +0.0032",
                        "black 0.005 cd/m², contrast 200000:1",
                        "ΔE ITP mean 0.40, 95 % within 0.90, largest 1.20 at 512/512/512; 21 patches",
                        "judged within: white-luminance-error 0.5 %",
                        "measured as-left of 2026-02-19, 40 days ago: the run it was left with, none since",
                        "Client/HDR role follower; M-55, lcd as left never calibrated to this target",
                        "signal path ramp of 2026-02-19: Signal path suspect: narrow range expanded as full.",
                        "drift beyond: own-drift-luminance 30 % against at most 5 (house policy): Peak luminance fell.",
                        "set aside against what was signed off for Ilse: hero-drift-white 0.02 u′v′",
                        "DISPLAYS Client model M-55, lcd panel hours unknown quirk the menu dims the picture (seen 2026-03-01 by Mara; quirk ",
                        "Main model M-31, oled, serial number S 1 panel hours 10420 h",
                        "TRIMS IN FORCE Client/HDR for Mara hero Main/HDR trims gain.red=-2, bias.blue@low=+1",
                        "offset Δu′ +0.0010, Δv′ -0.0020, Δu′v′ 0.0022 (± 0.0003 in each), luminance +1.5 % (± 0.2), follower less hero corrected Disc meter on Client (display), version 2 signed",
                        "came about by 11 steps, 3 of them taken back; 4 readings; verdicts: 1 better, 1 worse, 0 same;"
                                + " guards overridden: 1",
                        "MATCHES UNDER WAY Client/HDR for Ilse opened",
                        "signed 2026-02-20 10:00, 39 days ago; recorded by Jo material night interiors",
                        "operators Client/HDR, Ilse less Mara: Δu′v′ 0.0050 (Δu′ +0.0030, Δv′ +0.0040), luminance +0.0 %; clicks: gain.red=+3",
                        "METERS Meter 1 meter colorimeter; in hand certificate valid: C-1 holds until 2026-06-30 correction Meter 1 on M-55 (model), version 2: for Client correction none on file for Main used here last on 2026-02-19",
                        "CAUTIONS caution Static bright patches age emissive panels");
        assertThat(desk.out).as("neutral").doesNotContain("\u001b");
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 60, 80, 100, 240})
    void theSheetFitsTheTerminalAndNeverTakesMoreThanAHundredColumns(int width) {
        desk.terminal = true;
        desk.width = width;
        desk.type("room", "sheet", "Suite 1");
        assertThat(desk.lines())
                .allSatisfy(line -> assertThat(line.codePointCount(0, line.length()))
                        .as(line)
                        .isLessThanOrEqualTo(width == 0 ? 100 : Math.min(width, 100)));
    }

    @Test
    void aPipeGetsTheSameContentOneLineEach() {
        desk.type("room", "sheet", "Suite 1");
        var rows = desk.lines().stream().map(line -> line.split("\t", -1)).toList();
        assertThat(rows)
                .hasSizeGreaterThan(30)
                .allSatisfy(row -> assertThat(row).hasSize(4));
        desk.terminal = true;
        desk.type("room", "sheet", "Suite 1");
        var read = desk.out.replaceAll("\\s+", " ");
        assertThat(rows)
                .allSatisfy(row ->
                        assertThat(read).contains(row[0], row[1], (row[2] + " " + row[3]).replaceAll("\\s+", " ")));
        var words = rows.stream()
                .mapToInt(row -> (row[2] + " " + row[3]).split("\\s+").length)
                .sum();
        var heads = rows.stream()
                        .map(row -> row[0])
                        .distinct()
                        .mapToInt(head -> head.split("\\s+").length)
                        .sum()
                + rows.stream()
                        .map(row -> row[0] + "\t" + row[1])
                        .distinct()
                        .filter(head -> !head.endsWith("\t"))
                        .mapToInt(head -> head.split("\t")[1].split("\\s+").length)
                        .sum();
        assertThat(read.strip().split(" ")).as("and the terminal shows no more").hasSize(words + heads);
    }

    @Test
    void jsonIsTheSheetItself() {
        desk.type("room", "sheet", "Suite 1", "--json=at,cautions");
        assertThat(desk.out).startsWith("{\"at\":\"2026-03-31T11:00:00Z\",\"cautions\":[\"Static bright patches");
        desk.type("room", "sheet", "Suite 1", "--json");
        assertThat(desk.out).contains("\"warmUpMinutes\":30", "\"contrast\":200000.0");
        fails(2, "There is no field \"trim\".", "room", "sheet", "Suite 1", "--json=trim");
    }

    @Test
    void theMeterInHandIsAskedFor() {
        desk.type("room", "sheet", "Suite 1", "--instrument", "Meter 1");
        assertThat(stub.seen)
                .filteredOn(seen -> seen.path().equals("/rooms/" + room + "/sheet"))
                .singleElement()
                .satisfies(seen -> assertThat(seen.query()).isEqualTo("instrument=" + id("instruments", "Meter 1")));
        fails(1, "There is no instrument \"Meter 9\".", "room", "sheet", "Suite 1", "--instrument", "Meter 9");
    }

    @Test
    void aSavedSheetIsShownWithoutNetworkAndLogInAndSaysItsAge() {
        desk.type("room", "sheet", "Suite 1", "--save");
        assertThat(desk.err).isEqualTo("Saved. Off line: panelbook room sheet \"North/Suite 1\" --saved\n");
        var fresh = desk.lines();
        desk.type("log-out");
        stub.stop();
        var asked = stub.seen.size();
        assertThat(desk.type("room", "sheet", "Suite 1", "--saved")).isEqualTo(3);
        assertThat(desk.lines().get(0))
                .isEqualTo("ROOM SHEET\t\tsaved\ta copy 1 h old, from " + stub.address()
                        + "; what happened since is not on it");
        assertThat(desk.lines().subList(1, desk.lines().size()))
                .as("complete, but for ages of now")
                .hasSameSizeAs(fresh)
                .containsAll(fresh.stream()
                        .filter(line -> !line.contains("panel hours ago"))
                        .toList());
        assertThat(stub.seen).as("nothing was asked of the service").hasSize(asked);
        desk.type("room", "sheet", room.toString(), "--saved", "--json=room");
        assertThat(desk.out).contains("\"name\":\"Suite 1\"");
        assertThat(desk.err).startsWith("This is a copy 1 h old");
    }

    @Test
    void anOldCopyTellsAgesAndCertificatesAsOfToday() {
        serve(sheet(AT.minusSeconds(30 * 86_400L), LocalDate.parse("2026-03-15")));
        desk.type("room", "sheet", "Suite 1", "--save");
        assertThat(desk.out).contains("valid: C-1 holds until 2026-03-15", "2026-02-19, 10 days");
        desk.type("room", "sheet", "Suite 1", "--saved");
        assertThat(desk.out)
                .contains(
                        "a copy 30 days old",
                        "not valid: C-1 expired on 2026-03-15",
                        "2026-02-19, 40 days and 420 panel hours ago (hours as of this copy)");
    }

    @Test
    void whenTheServiceIsAwayTheCopyIsPointedOut() {
        desk.type("room", "sheet", "Suite 1", "--save");
        stub.stop();
        fails(1, "panelbook room sheet \"Suite 1\" --saved", "room", "sheet", "Suite 1");
        assertThat(desk.err).contains("There is a copy 1 h old");
        fails(1, "cannot be reached", "room", "sheet", "Suite 2");
        assertThat(desk.err).doesNotContain("--saved");
    }

    @Test
    void aCopyInAFileIsCarriedToAnotherMachine() throws Exception {
        desk.type("room", "sheet", "Suite 1", "--save=suite.json");
        assertThat(desk.err).startsWith("Saved, also in suite.json. ");
        stub.stop();
        var other = new Desk(elsewhere);
        Files.copy(home.resolve("suite.json"), elsewhere.resolve("carried.json"));
        assertThat(other.type("room", "sheet", "--saved=carried.json")).isEqualTo(3);
        assertThat(other.out).contains("North/Suite 1", "gain.red=-2");
        Files.writeString(elsewhere.resolve("carried.json"), "{\"service\":\"x\"}");
        assertThat(other.type("room", "sheet", "--saved=carried.json")).isEqualTo(1);
        assertThat(other.err).contains("There is no readable copy of a room sheet in", "/savedAt is missing");
    }

    @Test
    void aBrokenCopyHidesNoOtherAndAMissingOneIsAnsweredWithWhatThereIs() throws Exception {
        desk.type("room", "sheet", "Suite 1", "--save");
        Files.writeString(home.resolve(".local/state/panelbook/sheets/broken.json"), "{");
        assertThat(desk.type("room", "sheet", "North/Suite 1", "--saved")).isEqualTo(3);
        fails(
                1,
                "There is no saved sheet of a room \"Suite 2\"; there are those of North/Suite 1. Save one while the service"
                        + " answers: panelbook room sheet \"Suite 2\" --save",
                "room",
                "sheet",
                "Suite 2",
                "--saved");
        fails(2, "Leave out one.", "room", "sheet", "Suite 1", "--saved", "--instrument", "Meter 1");
        fails(2, "Name a room", "room", "sheet");
        fails(2, "Name a room, or a file by --saved=FILE.", "room", "sheet", "--saved");
    }

    private void serve(RoomSheet sheet) {
        stub.things.get("rooms").get(room.toString()).put("sheet", sheet);
    }

    private Alert alert(UUID id, AlertCause cause, String headline, Instant at, UUID heldBy) {
        return new Alert(
                id,
                cause,
                AlertState.ACKNOWLEDGED,
                headline,
                "North/Suite 1/Client/HDR",
                FOLLOWER,
                null,
                room,
                "Suite 1",
                at,
                at,
                at,
                null,
                List.of(),
                List.of(),
                List.of(),
                heldBy,
                List.of(),
                0);
    }

    private RoomSheet sheet(Instant at, LocalDate certifiedUntil) {
        return new RoomSheet(
                new Room(room, UUID.randomUUID(), "North", "Suite 1", "Europe/Lisbon", null, 0),
                at,
                new RoomReadiness(
                        room,
                        "North",
                        "Suite 1",
                        ReadinessState.NOT_READY,
                        at,
                        List.of(
                                new Reason(
                                        ReadinessState.NOT_READY,
                                        "moved",
                                        "is under alerts",
                                        "Client",
                                        "HDR",
                                        UUID.randomUUID(),
                                        at),
                                new Reason(
                                        ReadinessState.READY_WITH_REMARKS,
                                        "not-matched",
                                        "It was never matched to the hero of the room.",
                                        "Client",
                                        "HDR",
                                        null,
                                        null))),
                List.of(new SheetTarget(
                        target(),
                        "P3 primaries, white D65; PQ, full range, 10 bit; peak 1000 cd/m², black 0.005 cd/m²",
                        30,
                        List.of(hero(at), follower()))),
                List.of(
                        new SheetDisplay(
                                display(CLIENT, "Client", "M-55", "lcd", null, null),
                                List.of(new Quirk(
                                        UUID.randomUUID(),
                                        CLIENT,
                                        "Client",
                                        "the menu dims the picture",
                                        Instant.parse("2026-03-01T10:00:00Z"),
                                        "Mara",
                                        null)),
                                List.of()),
                        new SheetDisplay(display(MAIN, "Main", "M-31", "oled", "S 1", 10_420.0), List.of(), List.of())),
                List.of(
                        alert(HELD_ALERT, AlertCause.MOVED, "Peak luminance fell by 30 %.", at, HOLDING_ALERT),
                        alert(
                                UUID.randomUUID(),
                                AlertCause.RECALIBRATION_DUE,
                                "It was calibrated 70 days ago.",
                                at,
                                null),
                        alert(HOLDING_ALERT, AlertCause.STEPPED, "Peak luminance stepped by 30 %.", at, null)),
                List.of(
                        match(MATCH, "Mara", new Trim("gain.red", "all", -2), new Trim("bias.blue", "low", 1)),
                        match(OTHER_MATCH, "Ilse", new Trim("gain.red", "all", 1))),
                List.of(new TrimOrigin(
                        MATCH, UUID.fromString("7b1f2c30-0000-4000-8000-00000000000a"), at, 11, 3, 4, 1, 1, 0, 1)),
                List.of(new OperatorDifference(
                        FOLLOWER,
                        "North/Suite 1/Client/HDR",
                        HERO,
                        "North/Suite 1/Main/HDR",
                        "Mara",
                        "Ilse",
                        0.003,
                        0.004,
                        0.005,
                        0.0,
                        List.of(new Trim("gain.red", "all", 3)))),
                List.of(underWay(at)),
                List.of(meter(certifiedUntil)),
                List.of("Static bright patches age emissive panels (Main)."));
    }

    private static MatchStory underWay(Instant at) {
        return new MatchStory(
                UUID.fromString("7b1f2c30-0000-4000-8000-00000000000b"),
                FOLLOWER,
                "North/Suite 1/Client/HDR",
                HERO,
                "North/Suite 1/Main/HDR",
                "HDR 1000",
                "Ilse",
                null,
                null,
                StoryState.OPEN,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(new Trim("gain.blue", "all", -1)),
                List.of(),
                null,
                null,
                at,
                "Mara");
    }

    private static Target target() {
        return new Target(
                TARGET,
                "HDR 1000",
                new Primaries(0.68, 0.32, 0.265, 0.69, 0.15, 0.06, 0.3127, 0.329),
                EotfKind.PQ,
                null,
                SignalRange.FULL,
                10,
                1000,
                0.005,
                UUID.randomUUID(),
                "House",
                null,
                0);
    }

    private SheetPreset hero(Instant at) {
        var run = run(AS_LEFT, HERO, "Main", Purpose.AS_LEFT);
        var left = new AsLeft(
                run,
                Duration.between(run.takenAt(), at).toDays(),
                420.0,
                1000.0,
                0.1978,
                0.4683,
                6504.3,
                0.0032,
                0.005,
                200_000.0,
                new Deviation(0.4, 0.9, 1.2, "512/512/512", 21),
                null,
                null,
                List.of(finding(HERO, Metric.WHITE_LUMINANCE_ERROR, 0.5, Decision.WITHIN, null)));
        return new SheetPreset(preset(HERO, MAIN, "Main", true, AS_LEFT), left, run, List.of(), List.of(), null);
    }

    private SheetPreset follower() {
        return new SheetPreset(
                preset(FOLLOWER, CLIENT, "Client", false, null),
                null,
                run(UUID.randomUUID(), FOLLOWER, "Client", Purpose.CHECK),
                List.of(finding(FOLLOWER, Metric.OWN_DRIFT_LUMINANCE, 30, Decision.BEYOND, null)),
                List.of(finding(FOLLOWER, Metric.HERO_DRIFT_WHITE, 0.02, Decision.BEYOND, OTHER_MATCH)),
                new Diagnosis(
                        UUID.randomUUID(),
                        Instant.parse("2026-02-19T10:00:00Z"),
                        11,
                        "narrow-expanded-as-full",
                        "peak-limited",
                        40.0,
                        List.of(),
                        true,
                        true,
                        "a converter",
                        "Signal path suspect: narrow range expanded as full.",
                        List.of(),
                        List.of()));
    }

    private static Preset preset(UUID id, UUID display, String name, boolean hero, UUID baseline) {
        return new Preset(
                id, display, name, "Suite 1", "North", "HDR", TARGET, "HDR 1000", hero, baseline, null, null, 0);
    }

    private static Run run(UUID id, UUID preset, String display, Purpose purpose) {
        return new Run(
                id,
                preset,
                METER,
                "North/Suite 1/" + display + "/HDR",
                "Meter 1",
                purpose,
                "Mara",
                Instant.parse("2026-02-19T10:00:00Z"),
                10_000.0,
                60,
                null,
                null,
                "left the menu closed",
                true,
                21,
                purpose == Purpose.AS_LEFT,
                Instant.parse("2026-02-19T10:10:00Z"),
                "Mara",
                null);
    }

    private static Finding finding(UUID preset, Metric metric, double value, Decision decision, UUID match) {
        return new Finding(
                UUID.randomUUID(),
                preset,
                "North/Suite 1/x/HDR",
                null,
                match,
                metric.rule(),
                metric,
                value,
                5,
                metric.unit(),
                null,
                null,
                decision,
                "Peak luminance fell.",
                List.of(),
                List.of(),
                UUID.randomUUID(),
                "House",
                0,
                Basis.HOUSE_POLICY,
                null,
                null,
                AT);
    }

    private Display display(UUID id, String name, String model, String panel, String serial, Double hours) {
        return new Display(id, id, "North", room, "Suite 1", name, model, panel, serial, null, hours, null, 0);
    }

    private static Match match(UUID id, String operator, Trim... trims) {
        return new Match(
                id,
                null,
                FOLLOWER,
                "North/Suite 1/Client/HDR",
                HERO,
                "North/Suite 1/Main/HDR",
                operator,
                UUID.randomUUID(),
                UUID.randomUUID(),
                new AgreedOffset(
                        0.001, -0.002, 0.0022, 1.5, 0.0003, 0.2, List.of("Disc meter on Client (display), version 2")),
                List.of(trims),
                "night interiors",
                null,
                Instant.parse("2026-02-20T10:00:00Z"),
                "Jo",
                true,
                null,
                null);
    }

    private static SheetMeter meter(LocalDate certifiedUntil) {
        var certificate =
                new Certificate(UUID.randomUUID(), METER, "C-1", LocalDate.parse("2025-06-30"), certifiedUntil, "Mara");
        return new SheetMeter(
                new Instrument(
                        METER,
                        "Meter 1",
                        InstrumentKind.COLORIMETER,
                        null,
                        2,
                        0.1,
                        0.002,
                        1e-4,
                        5e-4,
                        certificate,
                        null,
                        0),
                true,
                Instant.parse("2026-02-19T10:00:00Z"),
                certificate,
                true,
                List.of(
                        new SheetCorrection("Client", "Meter 1 on M-55 (model), version 2"),
                        new SheetCorrection("Main", null)));
    }
}
