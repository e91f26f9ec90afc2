package panelbook.cli;

import java.util.Map;
import org.junit.jupiter.api.BeforeEach;

/** A desk in a room with a hero, a follower and a meter, as the stand-in service has them. */
abstract class MatchRoom extends CommandTest {

    static final String CLIENT = "Suite 1/Client/HDR";
    static final String MAIN = "Suite 1/Main/HDR";

    @BeforeEach
    void placeTheFollower() {
        var display = stub.add(
                "displays",
                "Client",
                Map.of(
                        "facilityId",
                        id("facilities", "North"),
                        "roomId",
                        id("rooms", "Suite 1"),
                        "model",
                        "M-55",
                        "panelTechnology",
                        "lcd"));
        stub.add("presets", "HDR", Map.of("displayId", display.get("id"), "targetId", id("targets", "HDR 1000")));
        stub.add(
                "advice",
                "skin",
                Map.of(
                        "moment",
                        "observation",
                        "look",
                        "redder",
                        "place",
                        "skin",
                        "text",
                        "Try saturation.",
                        "basis",
                        "b"));
    }

    /** Opens a match and returns its id. */
    String open(String... more) {
        var command = new java.util.ArrayList<>(java.util.List.of(
                "match",
                "open",
                "--follower",
                CLIENT,
                "--hero",
                MAIN,
                "--operator",
                "Mara",
                "--instrument",
                "Meter 1"));
        command.addAll(java.util.List.of(more));
        done(command.toArray(String[]::new));
        return java.util.Arrays.stream(desk.out.split("\\s+|:"))
                .filter(word -> word.matches("[0-9a-f]{8}-.*"))
                .findFirst()
                .orElseThrow();
    }

    /** Types lines into a session of the only match under way. */
    int session(String... lines) {
        desk.typed = String.join("\n", lines) + "\n";
        var code = desk.type("match", "session");
        desk.typed = "";
        return code;
    }

    /** A run of three readings of a preset. */
    void reading(String name, String preset, String takenAt) {
        desk.write(
                name,
                "# preset: " + preset,
                "# instrument: Meter 1",
                "# purpose: match",
                "# operator: Joris",
                "# taken-at: " + takenAt,
                "# readings: 3",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "0,0,0,0.0011,0.0012,0.0014",
                "512,512,512,88.1,92.7,101",
                "1023,1023,1023,950.2,1000.1,1088.7");
    }
}
