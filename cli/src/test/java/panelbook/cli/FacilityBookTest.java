package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.cli.book.BookFile;
import panelbook.wire.DisplayEntry;
import panelbook.wire.FacilityBook;
import panelbook.wire.PresetEntry;
import panelbook.wire.RoomEntry;

/** Whole facilities from one file and back. */
class FacilityBookTest extends CommandTest {

    private static final String[] YAML = {
        "name: North",
        "timeZone: Europe/Lisbon",
        "toleranceSets:",
        "  - name: House",
        "    description: our own",
        "    warmUpMinutes: 30",
        "    hysteresis: 0.1",
        "    conformanceProbability: 0.95",
        "    tolerances:",
        "      - metric: own-drift-white",
        "        limit: 0.004",
        "        basis: house policy",
        "targets:",
        "  - name: HDR 1000",
        "    primaries: {redX: 0.68, redY: 0.32, greenX: 0.265, greenY: 0.69, blueX: 0.15, blueY: 0.06, whiteX: 0.3127, whiteY: 0.329}",
        "    eotf: pq",
        "    signalRange: full",
        "    bitDepth: 10",
        "    peakLuminance: 1000",
        "    blackLuminance: 0.005",
        "    toleranceSet: House",
        "instruments:",
        "  - name: Meter 1",
        "    kind: colorimeter",
        "    luminanceUncertaintyPercent: 2",
        "    luminanceRepeatabilityPercent: 0.1",
        "    chromaticityUncertainty: 0.002",
        "    chromaticityRepeatability: 0.0001",
        "    luminanceFloor: 0.0005",
        "    certificates:",
        "      - {number: K-1, issuedOn: 2026-02-10, expiresOn: 2027-02-09}",
        "rooms:",
        "  - name: Suite 1",
        "    displays:",
        "      - name: 12",
        "        model: M-31",
        "        panelTechnology: oled",
        "        presets:",
        "          - {name: HDR, target: HDR 1000, hero: true}"
    };

    @Test
    void aYamlFileIsEnteredAsOneBook() {
        desk.write("north.yaml", YAML);
        done("facility", "enter", "north.yaml");
        assertThat(desk.out).isEqualTo("added facility North\n");
        assertThat(desk.err)
                .isEqualTo(
                        "Entered north.yaml: 7 added, 0 changed, 1 as they were. Next: panelbook run upload FILE…\n");
        var sent = stub.seen.stream()
                .filter(s -> s.path().equals("/books"))
                .findFirst()
                .orElseThrow()
                .body()
                .toString();
        assertThat(sent)
                .contains("name=12", "hero=true", "basis=house policy", "expiresOn=2027-02-09", "peakLuminance=1000");
    }

    @Test
    void everyFaultOfAYamlFileIsNamedWithItsLineAndFieldAndNothingIsSent() {
        var lines = YAML.clone();
        lines[1] = "timezone: Europe/Lisbon";
        lines[15] = "    eotf: gamma";
        lines[17] = "    bitDepth: ten";
        lines[30] = "      - {number: K-1, issuedOn: 10.2.2026, expiresOn: 2027-02-09}";
        lines[38] = "          - {name: HDR, hero: maybe}";
        desk.write("north.yaml", lines);
        fails(
                1,
                "north.yaml has 7 problems; nothing was entered. Mend these and enter it again:",
                "facility",
                "enter",
                "north.yaml");
        assertThat(desk.err.lines().map(String::strip))
                .contains(
                        "north.yaml, line 2, timezone: is not known here; the fields are: name, timeZone, toleranceSets, targets, instruments, rooms",
                        "north.yaml, line 1, timeZone: is missing",
                        "north.yaml, line 16, targets[1].eotf: \"gamma\" is none of: pq, hlg, bt1886, power",
                        "north.yaml, line 18, targets[1].bitDepth: \"ten\" is not a whole number",
                        "north.yaml, line 31, instruments[1].certificates[1].issuedOn: \"10.2.2026\" is not a date such as 2026-03-31",
                        "north.yaml, line 39, rooms[1].displays[1].presets[1].target: is missing",
                        "north.yaml, line 39, rooms[1].displays[1].presets[1].hero: \"maybe\" is neither true nor false");
        assertThat(stub.seen).noneMatch(s -> s.path().equals("/books"));
    }

    @Test
    void filesThatAreNoYamlOrNotThereAreRefused() {
        desk.write("broken.yaml", "name: North", "rooms: [", "  - x");
        fails(1, "broken.yaml, line 3", "facility", "enter", "broken.yaml");
        desk.write("twice.yaml", "name: North", "name: South", "timeZone: UTC");
        fails(1, "line 2", "facility", "enter", "twice.yaml");
        desk.write("empty.yaml", "");
        fails(
                1,
                "empty.yaml is empty. Nothing was entered; mend the file and enter it again.",
                "facility",
                "enter",
                "empty.yaml");
        desk.write("list.yaml", "- North");
        fails(1, "is not a group of named fields", "facility", "enter", "list.yaml");
        fails(1, "The file nowhere.yaml cannot be read: there is no such file.", "facility", "enter", "nowhere.yaml");
        fails(2, "--format \"xml\" is none of: yaml, csv.", "facility", "enter", "empty.yaml", "--format", "xml");
    }

    @Test
    void aRefusalByTheServiceNamesTheLineOfTheFile() {
        desk.write("north.yaml", YAML);
        stub.instead.add(StubService.problem(
                400,
                "no",
                List.of(
                        Map.of(
                                "pointer",
                                "/rooms/0/displays/0/presets/0/target",
                                "detail",
                                "There is no target of that name"),
                        Map.of("pointer", "/targets/0/toleranceSet", "detail", "There is none"))));
        fails(
                1,
                "north.yaml, line 39, rooms[1].displays[1].presets[1].target: There is no target of that name",
                "facility",
                "enter",
                "north.yaml");
        assertThat(desk.err).contains("north.yaml, line 21, targets[1].toleranceSet: There is none");
    }

    @Test
    void aCsvFileHasARowPerPresetAndItsFaultsHaveLines() {
        desk.write(
                "d.csv",
                "facility,time_zone,room,display,model,panel_technology,preset,target,hero",
                "North,Europe/Lisbon,Suite 1,Main,M-31,oled,HDR,HDR 1000,yes",
                "North,Europe/Lisbon,Suite 1,Main,,,SDR,SDR,",
                "North,Europe/Lisbon,Suite 2,,,,,,",
                "North,Europe/Lisbon,Suite 1,Client,M-55,lcd,,,");
        done("facility", "enter", "d.csv");
        var sent = stub.seen.stream()
                .filter(s -> s.path().equals("/books"))
                .findFirst()
                .orElseThrow()
                .body()
                .toString();
        assertThat(sent)
                .contains(
                        "name=Suite 2, timeZone=null, displays=[]", "name=Client", "name=SDR, target=SDR, hero=false");
        desk.write(
                "d.csv",
                "facility,time_zone,room,display,model,panel_technology,preset,target,hero",
                "North,Europe/Lisbon,Suite 1,Main,M-31,oled,HDR,HDR 1000,yes",
                "North,Europe/Lisbon,Suite 1,Main,M-32,,SDR,SDR,no",
                "South,Europe/Lisbon,Suite 1,Main,,,X,SDR,no",
                "North,Europe/Lisbon,Suite 1,,,,HDR,,",
                "North,Europe/Lisbon,Suite 1,Main,,,HDR,HDR 1000,yes",
                "North,Europe/Lisbon,,Main,,,A,B,no",
                "North,Europe/Lisbon");
        fails(1, "d.csv has 6 problems", "facility", "enter", "d.csv");
        assertThat(desk.err)
                .contains(
                        "d.csv, line 3, model/panel_technology/serial_number/notes: \"M-32\" here, \"M-31\" above for the same display",
                        "d.csv, line 4, facility: is \"South\" here and \"North\" above: a file holds one facility",
                        "d.csv, line 5, preset: stands in a row without display",
                        "d.csv, line 6, preset: \"HDR\" stands there twice for this display",
                        "d.csv, line 7, room: is missing",
                        "d.csv, line 8, row: has 2 values where there are 9 columns");
        desk.write("d.csv", "facility,timezone,room", "North,UTC,A");
        fails(
                1,
                "d.csv, line 1, timezone: is not a column; the columns are: facility, time_zone, room,",
                "facility",
                "enter",
                "d.csv");
        desk.write("d.csv", "facility,time_zone,room,display", "North,UTC,A,Main");
        fails(1, "d.csv, line 2, rooms[1].displays[1].model: is missing", "facility", "enter", "d.csv");
    }

    @Test
    void whatIsExportedEntersToTheSame() throws Exception {
        var yaml = String.join("\n", YAML) + "\n";
        var book = BookFile.read(
                        "north.yaml", yaml.getBytes(java.nio.charset.StandardCharsets.UTF_8), BookFile.Kind.YAML)
                .book();
        stub.things.get("facilities").get(id("facilities", "North")).put("book", book);
        done("facility", "export", "North");
        var exported = Files.writeString(home.resolve("export.yaml"), desk.out);
        assertThat(BookFile.read("export.yaml", Files.readAllBytes(exported), BookFile.Kind.YAML)
                        .book())
                .isEqualTo(book);
        desk.typed = desk.out;
        done("facility", "enter", "-");
        done("facility", "export", "North", "--format", "csv");
        assertThat(desk.lines().get(1)).isEqualTo("North,Europe/Lisbon,Suite 1,,12,M-31,oled,,,HDR,HDR 1000,yes");
    }

    /** Any rooms, displays and presets, with names that need quoting in either form. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void anyBookOfRoomsComesBackFromEitherFormAsItWas(long seed) {
        var random = new Random(seed);
        var book = new FacilityBook(name(random, 0), "Europe/Lisbon", List.of(), List.of(), List.of(), rooms(random));
        for (var kind : BookFile.Kind.values()) {
            var text = BookFile.write(book, kind);
            var again = BookFile.read("f", text.getBytes(java.nio.charset.StandardCharsets.UTF_8), kind)
                    .book();
            assertThat(again).as("%s of seed %s:%n%s", kind, seed, text).isEqualTo(book);
        }
    }

    private static List<RoomEntry> rooms(Random random) {
        var rooms = new ArrayList<RoomEntry>();
        for (var r = 0; r <= random.nextInt(4); r++) {
            var displays = new ArrayList<DisplayEntry>();
            for (var d = 0; d < random.nextInt(4); d++) {
                var presets = new ArrayList<PresetEntry>();
                for (var p = 0; p < random.nextInt(4); p++) {
                    presets.add(new PresetEntry(name(random, p), name(random, p), random.nextBoolean()));
                }
                displays.add(new DisplayEntry(
                        name(random, d),
                        name(random, d),
                        "oled",
                        random.nextBoolean() ? null : name(random, 1),
                        random.nextBoolean() ? null : "first line\nsecond, \"line\"",
                        presets));
            }
            rooms.add(new RoomEntry(name(random, r), random.nextBoolean() ? null : "Atlantic/Madeira", displays));
        }
        return rooms;
    }

    private static String name(Random random, int number) {
        var names = List.of(
                "Suite",
                "a, b",
                "say \"x\"",
                "0012",
                "true",
                "null",
                "~",
                "yes",
                "#1",
                "- a",
                "ä 小",
                "1e3",
                "a: b",
                "'",
                "@x",
                "2026-03-31");
        return names.get(random.nextInt(names.size())) + (number == 0 ? "" : " " + number);
    }
}
