package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Facilities, rooms, displays, presets, targets, tolerance sets, instruments, tokens: what a person types and sees. */
class FleetCommandsTest extends CommandTest {

    @Test
    void aPersonSeesATableWithHeaderAndAPipeTheSameRowsInFullWithoutIt() {
        desk.terminal = true;
        done("room", "list");
        assertThat(desk.lines()).hasSize(2);
        assertThat(desk.lines().get(0)).matches("ROOM +TIME ZONE +RETIRED +ID");
        assertThat(desk.lines().get(1)).startsWith("North/Suite 1  Europe/Lisbon");
        desk.terminal = false;
        done("room", "list");
        assertThat(desk.out).isEqualTo("North/Suite 1\tEurope/Lisbon\t\t" + id("rooms", "Suite 1") + "\n");
        assertThat(desk.err).isEmpty();
    }

    @Test
    void jsonHoldsAllFieldsOrThoseNamedAndAWrongOneIsAnsweredWithTheRightOnes() {
        done("room", "list", "--json");
        assertThat(desk.out)
                .startsWith("[{\"id\":\"")
                .contains("\"facility\":\"North\"", "\"retiredAt\":null", "\"version\":0");
        done("room", "show", "--json=name,timeZone", "Suite 1");
        assertThat(desk.out).isEqualTo("{\"name\":\"Suite 1\",\"timeZone\":\"Europe/Lisbon\"}\n");
        done("room", "show", "--json", "Suite 1");
        assertThat(desk.out).contains("\"name\":\"Suite 1\"");
        fails(
                2,
                "There is no field \"zone\". Use --json alone for all, or any of: id, facilityId, facility, name, timeZone, retiredAt, version.",
                "room",
                "list",
                "--json=zone");
        assertThat(desk.out).isEmpty();
    }

    @Test
    void addingSaysWhatWasAddedAndWhatComesNextAndARepeatAddsNothing() {
        done("facility", "add", "South", "--time-zone", "Europe/Madrid");
        assertThat(desk.err).isEqualTo("Added facility South. Next: panelbook room add NAME --facility South\n");
        done("facility", "add", "South", "--time-zone", "Europe/Madrid");
        assertThat(desk.err).startsWith("There already, unchanged: facility South.");
        assertThat(stub.things.get("facilities")).hasSize(2);
        done("room", "add", "Suite 2", "--facility", "South");
        done("room", "add", "Suite 2", "--facility", "North", "--time-zone", "Europe/Madrid");
        done(
                "display",
                "add",
                "Client",
                "--room",
                "South/Suite 2",
                "--model",
                "M-55",
                "--panel",
                "lcd",
                "--serial-number",
                "S 1",
                "--notes",
                "buzzes");
        done("display", "add", "Spare", "--facility", "South", "--model", "M-55", "--panel", "lcd");
        assertThat(desk.err).contains("South/-/Spare");
        done(
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
                "House");
        done("preset", "add", "SDR", "--display", "Client", "--target", "SDR");
        assertThat(desk.err).contains("preset South/Suite 2/Client/SDR");
        done(
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
        done("instrument", "certificate", "add", "Meter 2", "K-1", "--issued", "2026-01-01", "--until", "2026-12-31");
        assertThat(desk.out).isEqualTo("K-1\t2026-01-01\t2026-12-31\tMara\n");
        done("display", "hours", "add", "Client", "10250.5", "--note", "from the menu");
        done("room", "hero", "name", "Suite 1", "Suite 1/Main/HDR");
        assertThat(desk.err).contains("North/Suite 1/Main/HDR is the hero of North/Suite 1 for HDR 1000");
    }

    @Test
    void aNameTakenByAnotherThingIsRefusedAndAThingThatWasRenamedDoesNotBlockItsOldName() {
        done("facility", "add", "South", "--time-zone", "Europe/Madrid");
        fails(1, "There is another of this id", "facility", "add", "South", "--time-zone", "Europe/Paris");
        done("facility", "edit", "South", "--name", "South East");
        done("facility", "add", "South", "--time-zone", "Europe/Paris");
        assertThat(stub.things.get("facilities").values())
                .extracting(f -> f.get("name"))
                .contains("South", "South East");
    }

    @Test
    void editsChangeWhatWasNamedAndNothingElse() {
        done("display", "edit", "Main", "--notes", "fan audible");
        var display = stub.things.get("displays").get(id("displays", "Main"));
        assertThat(display)
                .containsEntry("notes", "fan audible")
                .containsEntry("model", "M-31")
                .containsEntry("panelTechnology", "oled");
        done("target", "edit", "HDR 1000", "--black", "0.003");
        var target = stub.things.get("targets").get(id("targets", "HDR 1000"));
        assertThat(target)
                .containsEntry("blackLuminance", 0.003)
                .containsEntry("eotf", "pq")
                .containsEntry("primaries", primaries());
        done("instrument", "edit", "Meter 1", "--luminance-uncertainty", "1.8");
        assertThat(stub.things.get("instruments").get(id("instruments", "Meter 1")))
                .containsEntry("luminanceUncertaintyPercent", 1.8)
                .containsEntry("kind", "colorimeter");
        done("room", "edit", "Suite 1", "--name", "Suite 1 West");
        done("preset", "edit", "Suite 1 West/Main/HDR", "--name", "HDR 1000");
        done("facility", "edit", "North", "--time-zone", "Atlantic/Madeira");
        assertThat(stub.seen)
                .filteredOn(s -> s.method().equals("PUT"))
                .allSatisfy(s -> assertThat(s.ifMatch()).matches("\"\\d+\""));
        fails(2, "Nothing to change was given", "display", "edit", "Main");
        fails(2, "Nothing to change was given", "target", "edit", "HDR 1000");
        fails(2, "Nothing to change was given", "tolerance-set", "edit", "House");
    }

    @Test
    void anEditOfWhatSomebodyElseEditedMeanwhileIsRefusedWithTheNextStep() {
        stub.instead.add(new StubService.Answer(
                200,
                Map.of(
                        "items",
                        List.of(Map.of(
                                "id",
                                id("facilities", "North"),
                                "name",
                                "North",
                                "timeZone",
                                "Europe/Lisbon",
                                "version",
                                7)))));
        fails(
                1,
                "It was edited since you read it. Look at it as it is now, then edit again.",
                "facility",
                "edit",
                "North",
                "--name",
                "N");
    }

    @Test
    void aLimitGivenWithoutBasisCountsAsHousePolicyAndTheOthersKeepTheirs() {
        done("tolerance-set", "edit", "House", "--limit", "white-luminance-error=3", "--limit", "contrast=800");
        done("tolerance-set", "show", "House");
        assertThat(desk.lines())
                .contains(
                        "own-drift-white\t≤ 0.004\tu′v′\thouse policy\t",
                        "white-luminance-error\t≤ 3\t%\thouse policy\t",
                        "contrast\t≥ 800\t:1\thouse policy\t");
        done(
                "tolerance-set",
                "edit",
                "House",
                "--limit",
                "own-drift-white=0.005",
                "--basis",
                "memory",
                "--document",
                "Some Standard",
                "--clause",
                "4.2",
                "--no-limit",
                "contrast",
                "--hysteresis",
                "0.2",
                "--recalibration-days",
                "90");
        done("tolerance-set", "show", "House");
        assertThat(desk.lines())
                .contains(
                        "own-drift-white\t≤ 0.005\tu′v′\tfrom memory, not checked against Some Standard, 4.2\t",
                        "HYSTERESIS\t0.2",
                        "RECALIBRATION d\t90")
                .noneMatch(line -> line.startsWith("contrast"));
        done("tolerance-set", "add", "Strict", "--like", "House", "--limit", "own-drift-white=0.002");
        done("tolerance-set", "list");
        assertThat(desk.lines()).hasSize(2);
        fails(2, "needs --document", "tolerance-set", "edit", "House", "--limit", "contrast=800", "--basis", "text");
        fails(2, "is none of: white-luminance-error, ", "tolerance-set", "edit", "House", "--limit", "whiteness=3");
        fails(2, "is not METRIC=VALUE", "tolerance-set", "edit", "House", "--limit", "contrast");
        fails(2, "is not a number", "tolerance-set", "edit", "House", "--limit", "contrast=many");
    }

    @Test
    void namesPathsAndIdsAreAllUnderstoodAndAmbiguityIsAnsweredWithTheCandidates() {
        var south = stub.add("facilities", "South", Map.of("timeZone", "Europe/Lisbon"));
        stub.add(
                "rooms",
                "Suite 1",
                Map.of("facilityId", south.get("id"), "displayId", "other", "timeZone", "Europe/Lisbon"));
        fails(1, "\"Suite 1\" names more than one room: North/Suite 1 (", "room", "show", "Suite 1");
        assertThat(desk.err).contains("South/Suite 1 (", "Use the longer name or the id.");
        done("room", "show", "South/Suite 1");
        for (var display :
                List.of("Main", "Suite 1/Main", "North/Suite 1/Main", "North/Main", id("displays", "Main"))) {
            done("display", "show", display);
            assertThat(desk.out).contains("North/Suite 1/Main");
        }
        for (var preset : List.of("Main/HDR", "Suite 1/Main/HDR", "North/Suite 1/Main/HDR", id("presets", "HDR"))) {
            done("preset", "show", preset);
            assertThat(desk.out).startsWith("PRESET\tNorth/Suite 1/Main/HDR\n");
        }
        fails(
                2,
                "\"HDR\" does not name a preset. Give ROOM/DISPLAY/PRESET; panelbook preset list shows them.",
                "preset",
                "show",
                "HDR");
        fails(
                1,
                "There is no preset \"Suite 1/Main/SDR\". panelbook preset list shows what there is.",
                "preset",
                "show",
                "Suite 1/Main/SDR");
        fails(1, "There is no such thing in rooms.", "room", "show", "7d7f2b0c-0000-4000-8000-55aa10f0c3e1");
    }

    @Test
    void movingRetiringAndReadingBack() {
        done("room", "add", "Suite 2", "--facility", "North");
        done("display", "move", "Main", "--to", "Suite 2", "--reason", "swap");
        assertThat(desk.err).startsWith("Moved display Main to North/Suite 2.");
        done("display", "move", "Main", "--to-store");
        assertThat(desk.out).startsWith("North/-/Main\t");
        fails(2, "Say where to: either --to ROOM or --to-store.", "display", "move", "Main");
        for (var thing : List.of(
                List.of("display", "Main"),
                List.of("room", "Suite 2"),
                List.of("target", "HDR 1000"),
                List.of("instrument", "Meter 1"),
                List.of("tolerance-set", "House"),
                List.of("facility", "North"))) {
            done(thing.get(0), "retire", thing.get(1), "--reason", "gone");
            assertThat(desk.err).contains("Retired ", "its record stays");
            done(thing.get(0), "list", "--retired");
            done(thing.get(0), "show", thing.get(1), "--json=retiredAt");
            assertThat(desk.out).isEqualTo("{\"retiredAt\":\"2026-03-31T10:00:00Z\"}\n");
        }
    }

    @Test
    void listsThatAreLongSayThatThereIsMore() {
        for (var i = 0; i < 7; i++) {
            done("facility", "add", "F" + i, "--time-zone", "UTC");
        }
        done("facility", "list", "--limit", "5");
        assertThat(desk.lines()).hasSize(5);
        assertThat(desk.err).contains("There are more; give a higher --limit than 5 to see them.");
        fails(2, "--limit must be 1 or more", "facility", "list", "--limit", "0");
        fails(2, "Invalid value for option '--limit'", "facility", "list", "--limit", "all");
    }

    @Test
    void optionsThatCannotBeUnderstoodAreAnsweredWithWhatWouldBeRight() {
        fails(
                2,
                "--time-zone \"Lisbon\" is not a time zone. Use an IANA name such as Europe/Lisbon.",
                "facility",
                "add",
                "X",
                "--time-zone",
                "Lisbon");
        fails(2, "Missing required option: '--time-zone=ZONE'", "facility", "add", "X");
        fails(2, "Missing required parameter: 'NAME'", "facility", "add", "--time-zone", "UTC");
        fails(
                2,
                "--eotf \"gamma\" is none of: pq, hlg, bt1886, power.",
                "target",
                "edit",
                "HDR 1000",
                "--eotf",
                "gamma");
        fails(
                2,
                "is none of bt709, bt2020, p3-d65 and not eight numbers",
                "target",
                "edit",
                "HDR 1000",
                "--primaries",
                "wide");
        fails(2, "A target needs --eotf.", "target", "add", "X", "--primaries", "bt709", "--tolerance-set", "House");
        fails(2, "An instrument needs --luminance-uncertainty", "instrument", "add", "X", "--kind", "colorimeter");
        fails(
                2,
                "--until 2025-01-01 lies before --issued 2026-01-01",
                "instrument",
                "certificate",
                "add",
                "Meter 1",
                "K",
                "--issued",
                "2026-01-01",
                "--until",
                "2025-01-01");
        fails(
                2,
                "\"31.3.2026\" is not a date",
                "instrument",
                "certificate",
                "add",
                "Meter 1",
                "K",
                "--issued",
                "31.3.2026",
                "--until",
                "2025-01-01");
        fails(2, "HOURS \"many\" is not a number", "display", "hours", "add", "Main", "many");
        fails(2, "There is no command \"lsit\" here. Did you mean list?", "room", "lsit");
        fails(2, "There is no command \"rom\" here. Did you mean room?", "rom", "list");
        fails(
                2,
                "There is no option \"--facilty\" here. Did you mean --facility?",
                "room",
                "list",
                "--facilty",
                "North");
        fails(2, "Name the display's room by --room", "display", "add", "X", "--model", "M", "--panel", "lcd");
    }

    @Test
    void refusalsOfTheServiceAreShownWithTheirPlaces() {
        stub.instead.add(StubService.problem(
                400, "/name: is too long", List.of(Map.of("pointer", "/name", "detail", "is too long"))));
        fails(1, "panelbook: /name: is too long\n", "facility", "add", "X", "--time-zone", "UTC");
        stub.instead.add(StubService.problem(
                400,
                "/name: is too long (and 1 more)",
                List.of(
                        Map.of("pointer", "/name", "detail", "is too long"),
                        Map.of("pointer", "/timeZone", "detail", "is unknown"))));
        fails(1, "  /name: is too long\n  /timeZone: is unknown\n", "facility", "add", "X", "--time-zone", "UTC");
        stub.instead.add(new StubService.Answer(404, "nothing here"));
        fails(1, "answered 404", "facility", "list");
        stub.instead.add(StubService.problem(503, "The database is away.", List.of()));
        fails(1, "has trouble (503: The database is away.). Try again in a while.", "facility", "list");
        stub.instead.add(new StubService.Answer(200, Map.of("items", List.of(Map.of("name", "x")))));
        fails(1, "answered something else than expected (/id is missing)", "facility", "list");
    }

    @Test
    void theLogInIsKeptForItsOwnerOnlyAndTheTokenIsNeverPrinted() throws Exception {
        var file = home.resolve(".config/panelbook/log-in.json");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-------");
        done("who");
        assertThat(desk.out)
                .isEqualTo("SERVICE\t" + stub.address() + "\nHOLDER\tMara\nROLE\tengineer\nEXPIRES\t\n")
                .doesNotContain(StubService.TOKEN);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        done("who");
        assertThat(desk.err).contains("others may read your token. Type: chmod 600 ");
        done("log-out");
        fails(1, "You are not logged in. Type: panelbook log-in", "who");
        desk.write("token", StubService.TOKEN);
        done("log-in", stub.address() + "/", "--token-file", "token");
        desk.typed = "wrong\n";
        fails(1, "Log in again", "log-in", stub.address());
        done("who");
        desk.typed = "\n";
        fails(1, "There is no token in standard input", "log-in", stub.address());
        fails(1, "there is no such file", "log-in", stub.address(), "--token-file", "nowhere");
        fails(2, "is not an address", "log-in", "panelbook");
        fails(2, "is not an address", "log-in", "ftp://panelbook.example");
    }

    @Test
    void theEnvironmentStandsInForALogInAndATokenNeverGoesToAnotherService() {
        desk.write("token", StubService.TOKEN);
        desk.environment.put("PANELBOOK_SERVICE", "http://localhost:1");
        fails(1, "names another service than you are logged in to", "who");
        desk.environment.put("PANELBOOK_SERVICE", stub.address());
        desk.environment.put("PANELBOOK_TOKEN_FILE", "token");
        done("log-out");
        done("who");
    }

    @Test
    void aServiceThatIsAwayIsSaidInOneLineWithTheNextStep() {
        stub.stop();
        fails(1, "The service at " + stub.address() + " cannot be reached (", "who");
        assertThat(desk.err.lines()).hasSize(1);
        stub.restart();
    }

    @Test
    void tokensAreMadeShownOnceAndRevoked() throws Exception {
        done("token", "add", "--holder", "probe-3", "--role", "probe", "--expires", "2027-01-31");
        assertThat(desk.out).isEqualTo("pb_secret\n");
        assertThat(stub.seen)
                .anySatisfy(s -> assertThat(String.valueOf(s.body())).contains("expiresAt=2027-02-01T00:00:00Z"));
        done("token", "add", "--holder", "probe-4", "--role", "probe", "--file", "p.token");
        assertThat(desk.out).isEmpty();
        assertThat(Files.readString(home.resolve("p.token"))).isEqualTo("pb_secret\n");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(home.resolve("p.token"))))
                .isEqualTo("rw-------");
        fails(
                2,
                "--role \"boss\" is none of: engineer, calibrator, manager, probe.",
                "token",
                "add",
                "--holder",
                "x",
                "--role",
                "boss");
        var token = stub.add(
                "tokens",
                "t",
                Map.of("holder", "probe-3", "role", "probe", "createdAt", "2026-03-31T10:00:00Z", "createdBy", "Mara"));
        done("token", "list");
        done("token", "revoke", (String) token.get("id"));
        assertThat(desk.err).contains("Revoked the token of probe-3");
        fails(2, "\"x\" is not the id of a token. Copy it from: panelbook token list", "token", "revoke", "x");
    }

    @Test
    void accountsTakeTheirPasswordFromAFileAndNeverAsAnArgument() throws Exception {
        desk.write("password", "seven grey cards in a drawer\n");
        done("account", "add", "mara", "--holder", "Mara", "--role", "manager", "--password-file", "password");
        assertThat(desk.err)
                .contains("Added the account mara for Mara. Next: sign in at " + stub.address() + "/sign-in");
        assertThat(desk.out + desk.err).doesNotContain("seven grey");
        assertThat(stub.seen)
                .anySatisfy(
                        s -> assertThat(String.valueOf(s.body())).contains("password=seven grey cards in a drawer"));
        desk.write("empty", "");
        fails(1, "There is no password in empty", "account", "password", "mara", "--password-file", "empty");
        fails(
                2,
                "--role \"boss\" is none of: engineer, calibrator, manager, probe.",
                "account",
                "add",
                "x",
                "--holder",
                "x",
                "--role",
                "boss");
    }

    @Test
    void theAuditLogIsListedByActorAndSubject() {
        stub.things.put(
                "audit-entries",
                new LinkedHashMap<>(Map.of(
                        "1",
                        Map.of(
                                "sequence",
                                1,
                                "at",
                                "2026-03-31T10:00:00Z",
                                "actor",
                                "Mara",
                                "action",
                                "add",
                                "subjectKind",
                                "room",
                                "subjectId",
                                "x",
                                "after",
                                Map.of("name", "Suite 1")))));
        done("audit", "list", "--json=actor,after");
        assertThat(desk.out).isEqualTo("[{\"actor\":\"Mara\",\"after\":{\"name\":\"Suite 1\"}}]\n");
        done("audit", "list", "--actor", "Mara", "--subject-kind", "room");
        assertThat(stub.seen).extracting(StubService.Seen::path).contains("/audit-entries");
    }

    @Test
    void aQuirkIsNotedOnceSettledWithAWordAndWhenItIsBackNotedAnew() {
        done("display", "quirk", "add", "Suite 1/Main", "the menu dims the picture");
        var quirk = stub.things.get("quirks").keySet().iterator().next();
        assertThat(desk.err)
                .isEqualTo("Added quirk of North/Suite 1/Main. Next: when it is gone, panelbook display quirk settle "
                        + quirk + " --word TEXT\n");
        done("display", "quirk", "add", "Suite 1/Main", "the menu dims the picture");
        assertThat(desk.err).startsWith("There already, unchanged: quirk of North/Suite 1/Main.");
        done("display", "quirk", "list", "Main");
        assertThat(desk.lines())
                .singleElement()
                .asString()
                .isEqualTo("Main\topen\t2026-03-31T10:00:00Z\tMara\t" + quirk + "\t\tthe menu dims the picture");
        done("display", "quirk", "settle", quirk, "--word", "set to close by itself");
        assertThat(desk.out).contains("\tsettled\t", "set to close by itself");
        assertThat(desk.err).isEqualTo("Settled a quirk of Main.\n");
        done("display", "quirk", "list", "Main");
        assertThat(desk.out).isEmpty();
        done("display", "quirk", "add", "Suite 1/Main", "the menu dims the picture");
        assertThat(desk.err).startsWith("Added quirk");
        done("display", "quirk", "list", "Main", "--settled", "--json=note,settlement");
        assertThat(desk.out).contains("set to close by itself", "\"settlement\":null");
        fails(
                2,
                "\"Main\" is not the id of a display quirk. Copy it from: panelbook display quirk list",
                "display",
                "quirk",
                "settle",
                "Main",
                "--word",
                "x");
    }
}
