package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A session at the prompt against the real service, in order: what one step leaves the next one finds. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
@Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class LiveServiceTest {

    @TempDir
    static Path home;

    private static LiveService service;
    private static Desk desk;

    @BeforeAll
    static void start() {
        service = new LiveService(home);
        service.startAndWait();
        desk = new Desk(home);
    }

    @AfterAll
    static void stop() throws Exception {
        service.close();
        assertThat(service.strays()).as("processes left behind").isEmpty();
    }

    private static void gives(int code, String... command) {
        assertThat(desk.type(command))
                .as("%s said: %s%s", List.of(command), desk.out, desk.err)
                .isEqualTo(code);
        assertThat(desk.err).doesNotContain("\tat ", "should not have happened");
    }

    private static String column(int line, int column) {
        return desk.lines().get(line).split("\t")[column];
    }

    @Test
    @Order(1)
    void theFirstTokenLogsInAndAWrongOneDoesNot() {
        gives(
                0,
                "log-in",
                service.address(),
                "--token-file",
                service.tokenFile().toString());
        assertThat(desk.out).contains("ROLE\tengineer");
        desk.typed = "pb_nonsense\n";
        gives(1, "log-in", service.address());
        assertThat(desk.err).contains("Log in again: panelbook log-in URL");
        desk.typed = "";
        gives(0, "who", "--json=role");
        assertThat(desk.out).isEqualTo("{\"role\":\"engineer\"}\n");
    }

    @Test
    @Order(2)
    void aFacilityIsEnteredFromOneFileAndItsExportEntersToTheSame() {
        Suite.book(desk);
        gives(0, "facility", "enter", "north.yaml");
        assertThat(desk.err).startsWith("Entered north.yaml: ").contains(" added, 0 changed");
        gives(0, "facility", "enter", "north.yaml");
        assertThat(desk.err).contains(": 0 added, 0 changed, ");
        for (var format : List.of("yaml", "csv")) {
            gives(0, "facility", "export", "North", "--format", format);
            desk.write("export." + format, desk.out);
            gives(0, "facility", "enter", "export." + format);
            assertThat(desk.err).as("the export as %s", format).contains(": 0 added, 0 changed, ");
        }
    }

    @Test
    @Order(3)
    void aBookThatTheServiceRefusesIsAnsweredWithTheLineOfTheFileAndChangesNothing() {
        desk.write(
                "bad.csv",
                "facility,time_zone,room,display,model,panel_technology,preset,target,hero",
                "North,Europe/Lisbon,Suite 9,Wall,M-9,led wall,HDR,HDR 1000,no",
                "North,Europe/Lisbon,Suite 9,Wall,,,Film,No such target,no");
        gives(1, "facility", "enter", "bad.csv");
        assertThat(desk.err).contains("bad.csv, line 3").contains("No such target");
        gives(1, "room", "show", "Suite 9");
    }

    @Test
    @Order(4)
    void everyKindOfThingIsAddedEditedListedAndRetired() {
        gives(0, "facility", "add", "South", "--time-zone", "Europe/Madrid");
        gives(0, "facility", "add", "South", "--time-zone", "Europe/Madrid");
        assertThat(desk.err).startsWith("There already, unchanged");
        gives(0, "facility", "edit", "South", "--name", "South East");
        gives(0, "room", "add", "Suite 1", "--facility", "South East");
        gives(1, "room", "show", "Suite 1");
        assertThat(desk.err).contains("names more than one room: ", "North/Suite 1 (", "South East/Suite 1 (");
        gives(0, "room", "edit", "South East/Suite 1", "--name", "Suite 2");
        gives(0, "display", "add", "Wall", "--room", "Suite 2", "--model", "M-9", "--panel", "led wall");
        gives(0, "display", "edit", "Wall", "--notes", "hums");
        gives(0, "tolerance-set", "add", "Strict", "--like", "House", "--limit", "own-drift-white=0.002");
        gives(
                0,
                "tolerance-set",
                "edit",
                "Strict",
                "--limit",
                "white-luminance-error=3",
                "--no-limit",
                "hero-drift-white",
                "--recalibration-days",
                "60");
        gives(0, "tolerance-set", "show", "Strict");
        assertThat(desk.out)
                .contains("own-drift-white\t≤ 0.002\tu′v′\thouse policy")
                .doesNotContain("hero-drift-white");
        gives(
                0,
                "target",
                "add",
                "SDR",
                "--primaries",
                "bt709",
                "--eotf",
                "bt1886",
                "--range",
                "narrow",
                "--bits",
                "10",
                "--peak",
                "100",
                "--black",
                "0.01",
                "--tolerance-set",
                "Strict");
        gives(0, "target", "edit", "SDR", "--peak", "120");
        gives(0, "preset", "add", "SDR", "--display", "Wall", "--target", "SDR");
        gives(0, "preset", "edit", "Suite 2/Wall/SDR", "--name", "Rec. 709");
        gives(0, "preset", "show", "South East/Suite 2/Wall/Rec. 709");
        gives(0, "room", "hero", "name", "Suite 2", "Wall/Rec. 709");
        gives(0, "room", "hero", "list", "Suite 2");
        assertThat(desk.lines()).hasSize(1);
        gives(0, "display", "hours", "add", "Wall", "120.5", "--note", "from the menu");
        gives(0, "display", "hours", "list", "Wall");
        assertThat(column(0, 1)).isEqualTo("120.5");
        gives(
                0,
                "instrument",
                "add",
                "Meter 2",
                "--kind",
                "spectroradiometer",
                "--luminance-uncertainty",
                "2",
                "--luminance-repeatability",
                "0.1",
                "--chromaticity-uncertainty",
                "0.002",
                "--chromaticity-repeatability",
                "0.0001",
                "--luminance-floor",
                "0.0005");
        gives(0, "instrument", "edit", "Meter 2", "--serial-number", "S 2");
        gives(
                0,
                "instrument",
                "certificate",
                "add",
                "Meter 2",
                "K-2",
                "--issued",
                "2026-01-01",
                "--until",
                "2026-12-31");
        gives(0, "instrument", "certificate", "list", "Meter 2");
        assertThat(column(0, 0)).isEqualTo("K-2");
        gives(0, "display", "move", "Wall", "--to-store", "--reason", "on tour");
        gives(0, "display", "show", "Wall");
        assertThat(desk.out).startsWith("DISPLAY\tSouth East/-/Wall\n").contains("on tour)");
        gives(0, "display", "list", "--facility", "South East");
        assertThat(desk.lines()).hasSize(1);
        for (var retired : List.of(
                List.of("preset", "South East/-/Wall/Rec. 709"),
                List.of("display", "Wall"),
                List.of("room", "Suite 2"),
                List.of("target", "SDR"),
                List.of("tolerance-set", "Strict"),
                List.of("instrument", "Meter 2"),
                List.of("facility", "South East"))) {
            gives(0, retired.get(0), "retire", retired.get(1), "--reason", "done");
            gives(0, retired.get(0), "list", "--retired");
        }
        gives(0, "facility", "list");
        assertThat(desk.lines()).hasSize(1);
        gives(
                1,
                "target",
                "add",
                "X",
                "--primaries",
                "bt709",
                "--eotf",
                "power",
                "--range",
                "full",
                "--bits",
                "10",
                "--peak",
                "100",
                "--black",
                "0.01",
                "--tolerance-set",
                "House");
        assertThat(desk.err).contains("gamma");
    }

    @Test
    @Order(5)
    void asLeftRunsBecomeBaselinesAndAMatchIsSignedOff() {
        Suite.run(desk, "main.csv", Suite.MAIN, "as-left", "2026-03-01T09:00:00Z", 1, 1);
        Suite.run(desk, "client.csv", Suite.CLIENT, "as-left", "2026-03-01T10:00:00Z", 0.99, 1.01);
        gives(0, "run", "upload", "main.csv", "client.csv");
        assertThat(desk.lines().get(0)).contains("\tas-left\twithin\tNorth/" + Suite.MAIN);
        gives(0, "run", "upload", "main.csv");
        gives(0, "run", "list", "--preset", Suite.MAIN);
        assertThat(desk.lines()).as("the same run again is the same run").hasSize(1);
        gives(0, "baseline", "list", Suite.MAIN);
        assertThat(desk.lines()).hasSize(1);
        gives(
                0,
                "match",
                "sign-off",
                "--follower",
                Suite.CLIENT,
                "--hero",
                Suite.MAIN,
                "--operator",
                "Mara",
                "--trim",
                "gain.red=+2",
                "--trim",
                "bias.blue@low=-1");
        assertThat(desk.err).contains("Taking for the follower its latest as-left run");
        gives(0, "match", "list", "--follower", Suite.CLIENT);
        gives(0, "match", "show", column(0, 7));
        gives(0, "trim", "show", "North/Suite 1");
        assertThat(desk.lines())
                .hasSize(2)
                .anyMatch(line -> line.startsWith("Mara\tNorth/" + Suite.CLIENT + "\tgain.red\tall\t2\t"));
        gives(0, "preset", "show", Suite.MAIN, "--json=hero,baselineRunId");
        assertThat(desk.out).contains("\"hero\":true").doesNotContain("\"baselineRunId\":null");
    }

    @Test
    @Order(6)
    void aDriftedFollowerIsExitCode3OneAlertAndARoomWithReasons() {
        Suite.run(desk, "ok.csv", Suite.MAIN, "check", "2026-03-10T09:00:00Z", 0.995, 1);
        gives(0, "run", "upload", "ok.csv");
        Suite.run(desk, "drift.csv", Suite.CLIENT, "check", "2026-03-10T10:00:00Z", 0.98, 1.12);
        gives(3, "run", "upload", "drift.csv");
        assertThat(desk.out).contains("\town-drift-white\tbeyond\t", "drift.csv\talert\topened\tmoved\t");
        gives(3, "finding", "list", Suite.CLIENT);
        gives(0, "alert", "list");
        assertThat(desk.lines()).hasSize(1);
        var alert = column(0, 6);
        gives(0, "alert", "show", alert);
        assertThat(desk.out).contains("\topened\tmoved\t");
        gives(0, "alert", "ack", alert, "--note", "visit on Thursday");
        assertThat(column(0, 0)).isEqualTo("acknowledged");
        gives(0, "alert", "list", "--state", "acknowledged", "--room", "North/Suite 1", "--cause", "moved");
        assertThat(desk.lines()).hasSize(1);
        desk.type("room", "readiness", "North/Suite 1");
        assertThat(desk.out).contains("North/Suite 1\t").contains("Client/HDR");
        desk.type("room", "readiness", "--facility", "North");
        assertThat(desk.out).contains("Client/HDR");
        Suite.run(desk, "again.csv", Suite.CLIENT, "check", "2026-03-11T10:00:00Z", 0.99, 1.01);
        gives(0, "run", "upload", "again.csv");
        assertThat(desk.out).contains("again.csv\talert\tclosed\tmoved\t");
        gives(0, "alert", "list");
        assertThat(desk.out).isEmpty();
    }

    @Test
    @Order(7)
    void badInputIsRefusedWithItsPlaceAndStoresNothing() {
        gives(0, "run", "list", "--limit", "1000");
        var before = desk.lines().size();
        desk.write(
                "dark.csv",
                "# preset: " + Suite.MAIN,
                "# instrument: Meter 1",
                "# purpose: check",
                "# operator: Mara",
                "# taken-at: 2026-03-12T09:00:00Z",
                "# readings: 1",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "4095,0,0,1,1,1");
        gives(1, "run", "upload", "dark.csv");
        assertThat(desk.err).contains("dark.csv, line 8, red");
        Suite.run(desk, "future.csv", Suite.MAIN, "check", "2099-01-01T00:00:00Z", 1, 1);
        gives(1, "run", "upload", "future.csv");
        assertThat(desk.err).contains("future.csv").doesNotContain("Spooled");
        gives(2, "run", "upload", "future.csv", "--purpose", "chekc");
        gives(1, "run", "show", "7d7f2b0c-0000-4000-8000-55aa10f0c3e1");
        gives(0, "run", "list", "--limit", "1000");
        assertThat(desk.lines()).hasSize(before);
    }

    @Test
    @Order(8)
    void aRunThatDoesNotVerifyBecomesABaselineOnlyWithAReason() {
        Suite.run(desk, "dim.csv", Suite.CLIENT, "as-left", "2026-03-13T09:00:00Z", 0.9, 1);
        gives(3, "run", "upload", "dim.csv");
        gives(0, "run", "list", "--preset", Suite.CLIENT, "--purpose", "as-left", "--limit", "1");
        var run = column(0, 7);
        var code = desk.type("baseline", "declare", Suite.CLIENT, run, "--reason", "client asked for less");
        assertThat(code).as(desk.err).isIn(0, 3);
        gives(0, "baseline", "list", Suite.CLIENT);
        assertThat(desk.lines()).hasSize(2);
        code = desk.type("run", "show", run);
        assertThat(code).isEqualTo(3);
        gives(0, "run", "show", run, "--readings");
        assertThat(desk.lines()).hasSize(9);
    }

    @Test
    @Order(8)
    void whatLiesAheadIsDrawnAndListed() {
        gives(0, "forecast", "show", Suite.MAIN);
        assertThat(desk.out)
                .contains(
                        "Peak luminance, cd/m²: too-few-readings", "White, distance in u′v′ from where it was left: ");
        gives(0, "forecast", "show", Suite.MAIN, "--json=preset,figures");
        assertThat(desk.out).contains("\"answer\":\"too-few-readings\"");
        gives(0, "preset", "drawing", Suite.MAIN, "white");
        assertThat(desk.err).startsWith("White was u′ ");
        assertThat(desk.lines()).anyMatch(line -> line.contains(": u′ "));
        var points = desk.lines().size();
        gives(0, "preset", "drawing", Suite.MAIN, "white", "--json=summary,series");
        assertThat(desk.out.split("\"x\":", -1)).hasSize(points + 1);
        gives(0, "preset", "drawing", Suite.MAIN, "white", "--svg", "-");
        assertThat(desk.out).startsWith("<svg").contains("#161616");
        gives(0, "preset", "drawing", Suite.MAIN, "white", "--svg", "-", "--paper", "white");
        assertThat(desk.out).startsWith("<svg").contains("#ffffff").doesNotContain("#161616");
        gives(2, "preset", "drawing", Suite.MAIN, "colours");
        assertThat(desk.err).contains("CHART \"colours\" is none of: peak-luminance, ");
        gives(2, "preset", "drawing", Suite.MAIN, "gamut", "--paper", "white");
        assertThat(desk.err).contains("--paper is for --svg.");
        // the tolerance set of these rooms asks for no recalibration, so that only the meter has a date
        gives(0, "due", "--facility", "North");
        assertThat(desk.out)
                .contains(
                        "North/" + Suite.MAIN + "\tfalse\t\t\t\tNothing gives a date.\n",
                        "Meter 1\tfalse\t",
                        "\tcertificate\tcalendar\tIts certificate holds until ");
        gives(1, "due", "--until", "2001-01-01");
        assertThat(desk.err).contains("until: Must not lie before today");
    }

    @Test
    @Order(9)
    void theRoomSheetShowsWhatTheVisitLeftAndIsSaved() {
        gives(0, "display", "quirk", "add", "Suite 1/Client", "the menu dims the picture");
        gives(0, "display", "quirk", "add", "Suite 1/Client", "the menu dims the picture");
        assertThat(desk.err).startsWith("There already, unchanged: quirk of North/Suite 1/Client.");
        gives(0, "display", "quirk", "add", "Suite 1/Main", "a converter sits in its feed");
        gives(0, "display", "quirk", "settle", column(0, 4), "--word", "taken out");
        gives(0, "display", "quirk", "list", "Suite 1/Main");
        assertThat(desk.out).isEmpty();
        desk.type("room", "sheet", "North/Suite 1", "--instrument", "Meter 1", "--save");
        assertThat(desk.out)
                .contains(
                        "ROOM SHEET\t\troom\tNorth/Suite 1\n",
                        "TARGET HDR 1000\t\taim\tP3 primaries, white D65; PQ, full range, 10 bit; peak 1000 cd/m², black 0.005 cd/m²\n",
                        "TARGET HDR 1000\tMain/HDR\trole\thero; M-31, oled\n",
                        "TARGET HDR 1000\tMain/HDR\twhite\t1000 cd/m², u′ 0.1978 v′ 0.4683, 6504 K, Duv +0.0032\n",
                        "TARGET HDR 1000\tMain/HDR\tjudged\twithin: white-luminance-error 0 %, white-chromaticity-error 0 u′v′\n",
                        "TARGET HDR 1000\tClient/HDR\trole\tfollower; M-55, lcd\n",
                        "TARGET HDR 1000\tClient/HDR\twhite\t900 cd/m²,",
                        "DISPLAYS\tClient\tquirk\tthe menu dims the picture (seen ",
                        "DISPLAYS\tMain\tquirk\tnone open\n",
                        "TRIMS IN FORCE\tClient/HDR for Mara\ttrims\tbias.blue@low=-1, gain.red=+2\n",
                        "TRIMS IN FORCE\tClient/HDR for Mara\tin question\tthe follower has had a new baseline since sign-off\n",
                        "METERS\tMeter 1\tmeter\tcolorimeter; in hand\n",
                        "CAUTIONS\t\tcaution\tStatic bright patches age emissive panels (Main)");
        assertThat(desk.err).startsWith("Saved. Off line: ");
    }

    @Test
    @Order(9)
    void aProofIsMadeAndCheckedAndAChangedByteIsFound() throws Exception {
        var today = LocalDate.now(ZoneId.of("Europe/Lisbon"));
        gives(0, "proof", "make", "North/Suite 1", "--day", today.toString());
        var proof = home.resolve("North-Suite-1-" + today + ".pdf");
        assertThat(proof).exists();
        assertThat(desk.out).startsWith("North/Suite 1\t" + today + "\t");
        assertThat(desk.err).contains("Next: panelbook proof check " + proof.getFileName());
        var made = desk.out;
        gives(1, "proof", "make", "North/Suite 1", "--day", today.toString());
        assertThat(desk.err).contains("is there already and was left as it is");
        gives(0, "proof", "list", "North/Suite 1");
        assertThat(desk.out).as("nothing was made in vain").isEqualTo(made);
        gives(0, "proof", "check", proof.getFileName().toString());
        assertThat(desk.out)
                .startsWith("genuine\tNorth/Suite 1\t" + today + "\t")
                .contains("unaltered");
        var bytes = Files.readAllBytes(proof);
        bytes[bytes.length / 3] ^= 1;
        Files.write(home.resolve("forged.pdf"), bytes);
        gives(3, "proof", "check", "forged.pdf");
        assertThat(desk.out).startsWith("altered\tNorth/Suite 1\t");
        desk.write("other.pdf", "%PDF-1.7");
        gives(3, "proof", "check", "other.pdf", "--json=verdict,proof");
        assertThat(desk.out).isEqualTo("{\"verdict\":\"unknown\",\"proof\":null}\n");
        gives(1, "proof", "check", "none.pdf");
        assertThat(desk.err).contains("none.pdf: there is no such file");
        gives(1, "proof", "make", "North/Suite 1", "--day", today.plusDays(2).toString(), "--out", "x.pdf");
        assertThat(desk.err).contains("lies ahead");
        assertThat(home.resolve("x.pdf")).doesNotExist();
        gives(2, "proof", "make", "North/Suite 1", "--day", "Tuesday");
    }

    @Test
    @Order(10)
    void aMeterIsCorrectedAfterShowingWhatThatChangesAndVerdictsNameIt() throws Exception {
        gives(
                0,
                "instrument",
                "add",
                "Reference",
                "--kind",
                "spectroradiometer",
                "--luminance-uncertainty",
                "2",
                "--luminance-repeatability",
                "0.1",
                "--chromaticity-uncertainty",
                "0.002",
                "--chromaticity-repeatability",
                "0.0001",
                "--luminance-floor",
                "0.0005");
        Suite.run(desk, "reference.csv", Suite.CLIENT, "match", "2026-03-13T11:00:00Z", 1, 1);
        var file = home.resolve("reference.csv");
        Files.writeString(file, Files.readString(file).replace("Meter 1", "Reference"));
        Suite.run(desk, "field.csv", Suite.CLIENT, "match", "2026-03-13T11:20:00Z", 1, 1.06);
        gives(0, "run", "upload", "reference.csv", "field.csv");
        var make =
                new ArrayList<>(List.of("instrument", "correction", "make", "Meter 1", "--display", "Suite 1/Client"));
        make.addAll(List.of("--reference", latestRun("Reference"), "--field", latestRun("Meter 1")));
        gives(2, make.toArray(String[]::new));
        assertThat(desk.out).contains("correction\tMeter 1 on Client (display), version 1\tuntil now as taken\n");
        gives(0, "instrument", "correction", "list", "Meter 1");
        assertThat(desk.out).as("only shown").isEmpty();
        make.add("--yes");
        gives(0, make.toArray(String[]::new));
        gives(0, make.toArray(String[]::new));
        assertThat(desk.err).startsWith("There already, unchanged: Meter 1 on Client (display), version 1.");
        gives(0, "run", "show", latestRun("Meter 1"), "--readings", "--corrected");
        assertThat(desk.lines()).hasSize(9);
        gives(0, "run", "diagnose", latestRun("Meter 1"));
        assertThat(desk.out).contains("LIKELIEST\tas-intended\n", "LEVELS\t6\n");
        desk.type("finding", "list", Suite.CLIENT);
        assertThat(desk.out).contains("\tMeter 1 on Client (display), version 1\t");
        gives(0, "instrument", "correction", "list", "Meter 1");
        gives(0, "instrument", "correction", "withdraw", "Meter 1", column(0, 7), "--reason", "only to see");
    }

    private static String latestRun(String instrument) {
        gives(0, "run", "list", "--preset", Suite.CLIENT, "--instrument", instrument, "--limit", "1");
        return column(0, 7);
    }

    @Test
    @Order(11)
    void aProbeUploadsThroughAnOutageAndMayDoNothingElse() {
        gives(0, "token", "add", "--holder", "probe-3", "--role", "probe", "--file", "probe.token");
        var probe = new Desk(home.resolve("probe"));
        assertThat(probe.home.toFile().mkdirs()).isTrue();
        assertThat(probe.type(
                        "log-in",
                        service.address(),
                        "--token-file",
                        home.resolve("probe.token").toString()))
                .as(probe.err)
                .isZero();
        Suite.run(probe, "a.csv", Suite.MAIN, "check", "2026-03-14T09:00:00Z", 1, 1);
        Suite.run(probe, "b.csv", Suite.MAIN, "check", "2026-03-14T10:00:00Z", 1, 1);
        assertThat(probe.type("run", "upload", "a.csv")).as(probe.err).isZero();
        assertThat(probe.type("alert", "list")).isEqualTo(1);
        assertThat(probe.err).contains("See who you are: panelbook who");
        service.kill();
        desk.type("room", "sheet", "North/Suite 1", "--saved");
        assertThat(desk.out).startsWith("ROOM SHEET\t\tsaved\ta copy ").contains("Client/HDR for Mara", "Meter 1");
        assertThat(probe.type("run", "upload", "b.csv")).as(probe.err).isZero();
        assertThat(probe.out)
                .contains(
                        "b.csv\tupload\tspooled\t\tchecked here: file, code values, and against HDR 1000 as last seen: white +0.0 %");
        service.startAndWait();
        assertThat(probe.type("spool", "send")).as(probe.err).isZero();
        assertThat(probe.type("spool", "list")).isZero();
        assertThat(probe.out).isEmpty();
        gives(0, "run", "list", "--preset", Suite.MAIN, "--json=takenAt,receivedFrom", "--limit", "2");
        assertThat(desk.out)
                .isEqualTo(
                        "[{\"takenAt\":\"2026-03-14T10:00:00Z\",\"receivedFrom\":\"probe-3\"},{\"takenAt\":\"2026-03-14T09:00:00Z\",\"receivedFrom\":\"probe-3\"}]\n");
        gives(0, "token", "list");
        var id = desk.lines().stream()
                .filter(line -> line.startsWith("probe-3"))
                .findFirst()
                .orElseThrow()
                .split("\t")[6];
        gives(0, "token", "revoke", id);
        assertThat(probe.type("run", "upload", "a.csv")).isEqualTo(1);
        assertThat(probe.err).contains("Log in again");
        gives(0, "audit", "list", "--actor", "probe-3");
        assertThat(desk.lines()).isNotEmpty();
    }

    /** The service is killed while somebody follows; alerts are opened before and after; none is missed or comes twice. */
    @Test
    @Order(12)
    void followingAlertsGoesOnAfterTheServiceWasKilled() throws Exception {
        gives(0, "alert", "list", "--state", "open", "--state", "acknowledged", "--state", "closed");
        var follower = new Desk(home);
        var printed = new java.util.concurrent.atomic.AtomicInteger(-1);
        follower.sleeper = Thread::sleep;
        var thread = new Thread(() ->
                printed.set(follower.type("alert", "follow", "--since", "0", "--count", "5", "--cause", "moved")));
        thread.start();
        service.kill();
        service.startAndWait();
        Suite.run(desk, "moved.csv", Suite.MAIN, "check", "2026-03-20T09:00:00Z", 0.8, 1);
        gives(3, "run", "upload", "moved.csv");
        Suite.run(desk, "back.csv", Suite.MAIN, "check", "2026-03-21T09:00:00Z", 1, 1);
        desk.type("run", "upload", "back.csv");
        thread.join(60_000);
        assertThat(printed.get())
                .as("follow ended: %s%s", follower.out, follower.err)
                .isZero();
        var sequences = follower.lines().stream()
                .map(line -> Long.valueOf(line.split("\t")[0]))
                .toList();
        assertThat(sequences).hasSize(5).isSorted().doesNotHaveDuplicates();
        assertThat(follower.lines().stream().map(line -> line.split("\t")[2]))
                .startsWith("opened", "acknowledged", "closed");
    }

    @Test
    @Order(13)
    void aRunAMatchAndADisplayThatWereEnteredByMistakeArePutRight() {
        Suite.run(desk, "wrong.csv", Suite.MAIN, "check", "2026-03-25T09:00:00Z", 0.7, 1);
        gives(3, "run", "upload", "wrong.csv");
        gives(0, "run", "list", "--preset", Suite.MAIN, "--limit", "1");
        var run = column(0, 7);
        gives(3, "run", "withdraw", run, "--reason", "taken on the client display", "--onto", Suite.CLIENT);
        assertThat(desk.err)
                .contains("Withdrawing the check run of North/" + Suite.MAIN)
                .contains("and entering it on North/" + Suite.CLIENT);
        assertThat(desk.out)
                .contains("run\twithdrawn\tNorth/" + Suite.MAIN + "\trun " + run)
                .contains("run\tentered\tNorth/" + Suite.CLIENT)
                .contains("judged anew\t")
                .contains("alert\tclosed\tmoved\tNorth/" + Suite.MAIN)
                .as("it had moved, and was closed, 20 days before")
                .contains("alert\treopened\tmoved\tNorth/" + Suite.CLIENT);
        var said = desk.out;
        gives(3, "run", "withdraw", run, "--reason", "taken on the client display", "--onto", Suite.CLIENT);
        assertThat(desk.out).as("a repeat").isEqualTo(said);
        gives(3, "run", "show", run);
        assertThat(desk.out).contains("taken on the client display; replaced by ");

        gives(0, "match", "list", "--follower", Suite.CLIENT, "--json=id");
        var match = desk.out.replaceAll("(?s)^.*?\"id\":\"([^\"]*)\".*$", "$1");
        desk.type("match", "withdraw", match, "--reason", "Jo sat in", "--operator", "Jo");
        assertThat(desk.out)
                .contains("match\twithdrawn\tNorth/" + Suite.CLIENT + "\tfor Mara; match " + match)
                .contains("match\tentered\tNorth/" + Suite.CLIENT + "\tfor Jo, in force; match ");

        gives(0, "display", "add", "Client bis", "--room", "Suite 1", "--model", "M-55", "--panel", "lcd");
        gives(0, "preset", "add", "HDR 2", "--display", "Client bis", "--target", "HDR 1000");
        Suite.run(desk, "bis.csv", "Suite 1/Client bis/HDR 2", "check", "2026-03-26T09:00:00Z", 1, 1);
        desk.type("run", "upload", "bis.csv");
        gives(1, "display", "merge", "Client bis", "--into", "Client", "--reason", "one plate");
        assertThat(desk.err).contains("has no preset \"HDR 2\" in use: give the pair");
        desk.type(
                "display", "merge", "Client bis", "--into", "Client", "--reason", "one plate", "--preset", "HDR 2=HDR");
        assertThat(desk.out)
                .contains("display\tretired\tClient bis")
                .contains("preset\tmerged\tNorth/" + Suite.CLIENT
                        + "\t1 runs and 0 matches of North/Suite 1/Client bis/HDR 2");
        gives(1, "display", "show", "Client bis");
    }

    @Test
    @Order(14)
    void visitsArePlannedRoundHoursAndHolidaysAndThenPeopleDecide() {
        var today = LocalDate.now(ZoneId.of("Europe/Lisbon"));
        var until = today.plusDays(20).toString();
        gives(0, "display", "add", "New", "--room", "Suite 1", "--model", "M-31", "--panel", "oled");
        gives(0, "preset", "add", "HDR", "--display", "New", "--target", "HDR 1000");
        gives(3, "plan", "--dry-run", "--until", until);
        assertThat(desk.out).contains("no visit\t").contains("no-skill: There is no calibrator who could come.");

        gives(0, "calibrator", "add", "Mara", "--home", "North", "--hours", "mon-sun 09:00-17:00", "--skill", "oled");
        gives(0, "calibrator", "add", "Mara", "--home", "North", "--hours", "mon-sun 09:00-17:00", "--skill", "oled");
        assertThat(desk.err).startsWith("There already, unchanged: calibrator Mara.");
        assertThat(desk.out).startsWith("Mara\tNorth\toled\tmon-sun 09:00-17:00\tEurope/Lisbon\t\t");
        gives(0, "calibrator", "edit", "Mara", "--skill", "all");
        gives(2, "calibrator", "edit", "Mara", "--hours", "monday 9-17");
        assertThat(desk.err).contains("write it as \"mon-fri 09:00-17:00\"");
        gives(
                0,
                "calibrator",
                "absence",
                "add",
                "Mara",
                today.toString(),
                today.plusDays(1).toString());
        gives(0, "calibrator", "absence", "list", "Mara", "--json=id");
        gives(0, "calibrator", "absence", "cancel", desk.out.replaceAll("(?s)^.*?\"id\":\"([^\"]*)\".*$", "$1"));
        gives(0, "holiday", "add", today.plusDays(2).toString(), "house day", "--facility", "North");
        gives(0, "holiday", "list");
        assertThat(desk.lines()).hasSize(1);
        gives(0, "room", "importance", "Suite 1", "3");
        gives(0, "room", "importance", "Suite 1");
        assertThat(desk.out).contains("IMPORTANCE\t3");
        gives(0, "duration", "set", "recalibration", "40");
        gives(0, "duration", "list", "--model", "M-31");
        assertThat(desk.lines()).anyMatch(line -> line.startsWith("M-31\trecalibration\t40\thouse\t"));
        gives(0, "travel", "list");

        gives(0, "plan", "--dry-run", "--until", until);
        assertThat(desk.out)
                .contains("\tproposed\t")
                .contains("\tdays\t")
                .contains("that can be kept: 1 day of a calibrator, spread evenly; fewer than 1 cannot be.");
        gives(3, "plan", "--dry-run", "--until", until, "--calibrator-days", "0");
        assertThat(desk.out)
                .contains("left beyond\t")
                .contains("Other rooms save more with the same days.")
                .contains("0 days of a calibrator: not enough. Too late or not at all: North/Suite 1.");
        gives(0, "plan", "--dry-run", "--until", until, "--calibrator-days", "1");
        assertThat(desk.out).contains("1 day of a calibrator: enough for every room that can be kept.");
        gives(2, "plan", "--calibrator-days", "3");
        gives(0, "visit", "list");
        assertThat(desk.out).isEmpty();

        gives(0, "plan", "--propose", "--until", until);
        gives(0, "plan", "--from", today.toString(), "--until", until);
        assertThat(desk.lines()).hasSize(1);
        assertThat(desk.out).startsWith("Mara\t").contains("\tNorth/Suite 1\tproposed\t");
        desk.terminal = true;
        gives(0, "plan", "--from", today.toString(), "--until", until);
        assertThat(desk.lines().get(0)).startsWith("Week ").contains(", from ");
        assertThat(desk.lines().get(1)).startsWith("CALIBRATOR  DAY");
        desk.terminal = false;

        gives(0, "visit", "confirm", "Suite 1");
        assertThat(desk.out).contains("\tconfirmed\t");
        var day = today.plusDays(5);
        gives(1, "visit", "move", "Suite 1", "--to", day + "T20:00");
        assertThat(desk.err).contains("outside the working hours of Mara").contains("insist and give a reason");
        gives(0, "visit", "move", "Suite 1", "--to", day + "T20:00", "--insist", "--reason", "the client leaves late");
        assertThat(desk.out).contains(day + "\t20:00\t").contains("\tconfirmed\ttrue\t");
        assertThat(desk.err).contains("Mind: It is outside the working hours of Mara.");
        gives(0, "plan", "--propose", "--until", until);
        assertThat(desk.out).contains(day + "\t20:00\t").contains("\tconfirmed, pinned\t");
        gives(0, "visit", "unpin", "Suite 1");
        gives(0, "visit", "show", "Suite 1");
        assertThat(desk.out)
                .contains("PINNED\tfalse")
                .contains("WORK\trecalibration\t40 min\tNorth/Suite 1/New/HDR\t")
                .contains("MIND\t");
        gives(1, "visit", "done", "Suite 1");
        assertThat(desk.err).contains("begins only at");
        gives(0, "visit", "drop", "Suite 1", "--reason", "the room is being rebuilt");
        gives(1, "visit", "confirm", "Suite 1");
        assertThat(desk.err).contains("No visit to North/Suite 1 is proposed or confirmed.");
        gives(0, "visit", "add", "Suite 1", "--calibrator", "Mara", "--at", day + "T10:00", "--minutes", "90");
        assertThat(desk.out).contains(day + "\t10:00\t11:30\t");
        gives(0, "visit", "add", "Suite 1", "--calibrator", "Mara", "--at", day + "T10:00", "--minutes", "90");
        assertThat(desk.err).startsWith("There already, unchanged: visit to North/Suite 1.");
        gives(2, "visit", "move", "Suite 1", "--to", "2027-03-28T01:30");
        assertThat(desk.err).contains("is no time in Europe/Lisbon: the clocks go forward over it");
        gives(2, "visit", "move", "Suite 1", "--to", "2027-10-31T01:30");
        assertThat(desk.err).contains("write 2027-10-31T01:30+01:00 or 2027-10-31T01:30Z.");
        // what was made this morning and entered late is not the next one
        var earlier = Instant.now().minus(Duration.ofHours(5)).truncatedTo(ChronoUnit.SECONDS) + "";
        gives(
                0,
                "visit",
                "add",
                "Suite 1",
                "--calibrator",
                "Mara",
                "--at",
                earlier,
                "--preset",
                "Suite 1/New/HDR",
                "--insist",
                "--reason",
                "entered late");
        var usual = desk.clock;
        desk.clock = Clock.systemUTC();
        gives(0, "visit", "show", "Suite 1");
        assertThat(desk.out).contains(day + " 10:00");
        gives(0, "visit", "done", "Suite 1");
        desk.clock = usual;
        assertThat(desk.out).doesNotContain(day.toString()).contains("\tdone\t");
        gives(1, "calibrator", "retire", "Mara");
        assertThat(desk.err).contains("Confirmed visits lie ahead");
    }

    @Test
    @Order(16)
    void theLauncherAndTheFilesOfTheClientKeepToTheirFolders() throws Exception {
        try (var files = Files.walk(home.resolve(".config"))) {
            assertThat(files.filter(Files::isRegularFile)
                            .map(f -> home.relativize(f).toString()))
                    .containsExactly(".config/panelbook/log-in.json");
        }
        gives(0, "log-out");
        assertThat(home.resolve(".config/panelbook/log-in.json")).doesNotExist();
    }

    /** Mail is sent by the service's own tests; here no mail server is set up, which is said. */
    @Test
    @Order(15)
    void peopleAreToldThroughAChannelAndNotInAQuietPeriod() throws Exception {
        var told = new java.util.concurrent.LinkedBlockingQueue<String>();
        var receiver = com.sun.net.httpserver.HttpServer.create(
                new java.net.InetSocketAddress(java.net.InetAddress.getLoopbackAddress(), 0), 0);
        receiver.createContext("/", exchange -> {
            told.add(new String(exchange.getRequestBody().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8));
            exchange.sendResponseHeaders(204, -1);
            exchange.close();
        });
        receiver.start();
        try {
            gives(1, "channel", "add", "Night", "--mail", "night@facility.example");
            assertThat(desk.err).contains("spring.mail.host");
            var url = "http://127.0.0.1:" + receiver.getAddress().getPort() + "/";
            gives(0, "channel", "add", "Board", "--url", url, "--facility", "North", "--secret-file", "board.secret");
            assertThat(desk.out).isEmpty();
            assertThat(Files.readString(home.resolve("board.secret"))).startsWith("whsec_");
            gives(0, "channel", "add", "Board", "--url", url, "--facility", "North");
            assertThat(desk.err).startsWith("There already, unchanged: channel Board.");
            gives(0, "channel", "test", "Board");
            assertThat(told.poll(30, java.util.concurrent.TimeUnit.SECONDS)).contains("panelbook.test");
            gives(
                    0,
                    "facility",
                    "notify",
                    "North",
                    "--gather",
                    "0",
                    "--escalate-after",
                    "60",
                    "--remind-every",
                    "never");
            gives(0, "facility", "notify", "North");
            assertThat(desk.out).contains("ESCALATE AFTER\t60 min", "REMIND EVERY\tnever", "SET BY\tthe facility");

            var until = java.time.Instant.now().plusSeconds(3600).toString();
            gives(0, "quiet", "add", "--room", "Suite 1", "--until", until, "--reason", "painters in the room");
            var quiet = column(0, 6);
            Suite.run(desk, "quiet.csv", Suite.MAIN, "check", "2026-03-28T09:00:00Z", 0.6, 1);
            desk.type("run", "upload", "quiet.csv");
            gives(0, "quiet", "list");
            assertThat(column(0, 0)).isEqualTo("North/Suite 1");
            assertThat(Integer.parseInt(column(0, 5)))
                    .as("events kept from people")
                    .isPositive();
            assertThat(told).isEmpty();
            gives(0, "quiet", "end", quiet);
            assertThat(told.poll(60, java.util.concurrent.TimeUnit.SECONDS)).contains("panelbook.after-quiet");
            gives(0, "channel", "deliveries", "Board");
            assertThat(column(0, 1)).isEqualTo("after-quiet");
            gives(0, "alert", "list", "--json=id", "--limit", "1");
            gives(0, "alert", "told", desk.out.replaceAll("(?s)^.*?\"id\":\"([^\"]*)\".*$", "$1"));
            assertThat(desk.out).contains("Board");

            gives(0, "channel", "edit", "Board", "--cause", "moved", "--escalations-only");
            gives(0, "channel", "show", "Board");
            assertThat(desk.out).contains("CAUSES\tmoved", "TOLD\tonly what nobody acknowledged in time");
            gives(0, "channel", "retire", "Board", "--reason", "the board was taken down");
            gives(0, "channel", "list", "--retired");
            assertThat(column(0, 4)).isNotBlank();
        } finally {
            receiver.stop(0);
        }
    }
}
