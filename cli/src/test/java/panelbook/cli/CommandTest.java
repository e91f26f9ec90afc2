package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;

/** A desk that is logged in to a stand-in service with one facility, room, display, target, preset and instrument. */
abstract class CommandTest {

    @TempDir
    Path home;

    final StubService stub = new StubService();
    Desk desk;

    @BeforeEach
    void logIn() {
        desk = new Desk(home);
        desk.logIn(stub);
        var facility = stub.add("facilities", "North", Map.of("timeZone", "Europe/Lisbon"));
        var room = stub.add("rooms", "Suite 1", Map.of("facilityId", facility.get("id"), "timeZone", "Europe/Lisbon"));
        var display = stub.add(
                "displays",
                "Main",
                Map.of(
                        "facilityId",
                        facility.get("id"),
                        "roomId",
                        room.get("id"),
                        "model",
                        "M-31",
                        "panelTechnology",
                        "oled"));
        var set = stub.things.get("tolerance-sets").keySet().iterator().next();
        var target = stub.add(
                "targets",
                "HDR 1000",
                Map.of(
                        "primaries",
                        primaries(),
                        "eotf",
                        "pq",
                        "signalRange",
                        "full",
                        "bitDepth",
                        10,
                        "peakLuminance",
                        1000.0,
                        "blackLuminance",
                        0.005,
                        "toleranceSetId",
                        set));
        stub.add("presets", "HDR", Map.of("displayId", display.get("id"), "targetId", target.get("id"), "hero", true));
        stub.add(
                "instruments",
                "Meter 1",
                Map.of(
                        "kind",
                        "colorimeter",
                        "luminanceUncertaintyPercent",
                        2.0,
                        "luminanceRepeatabilityPercent",
                        0.1,
                        "chromaticityUncertainty",
                        0.002,
                        "chromaticityRepeatability",
                        1e-4,
                        "luminanceFloor",
                        5e-4));
    }

    @AfterEach
    void closeStub() {
        stub.close();
    }

    static Map<String, Object> primaries() {
        return Map.of(
                "redX", 0.68, "redY", 0.32, "greenX", 0.265, "greenY", 0.69, "blueX", 0.15, "blueY", 0.06, "whiteX",
                0.3127, "whiteY", 0.329);
    }

    String id(String collection, String name) {
        return stub.things.get(collection).values().stream()
                .filter(thing -> name.equals(thing.get("name")))
                .map(thing -> (String) thing.get("id"))
                .findFirst()
                .orElseThrow();
    }

    /** A run file of three readings. */
    Path run(String name, String takenAt) {
        return desk.write(
                name,
                "# preset: Suite 1/Main/HDR",
                "# instrument: Meter 1",
                "# purpose: check",
                "# operator: Mara",
                "# taken-at: " + takenAt,
                "# readings: 3",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "0,0,0,0.0011,0.0012,0.0014",
                "512,512,512,88.1,92.7,101",
                "1023,1023,1023,950.2,1000.1,1088.7");
    }

    void done(String... command) {
        var code = desk.type(command);
        assertThat(code)
                .as("exit code of %s, which said: %s%s", List.of(command), desk.out, desk.err)
                .isZero();
    }

    void fails(int code, String message, String... command) {
        assertThat(desk.type(command))
                .as("exit code of %s, which said: %s", List.of(command), desk.err)
                .isEqualTo(code);
        assertThat(desk.err).contains(message).doesNotContain("\tat ").doesNotContain("should not have happened");
        assertThat(desk.err.lines().findFirst().orElseThrow())
                .as("an error begins with its own line")
                .startsWith("panelbook: ");
    }
}
