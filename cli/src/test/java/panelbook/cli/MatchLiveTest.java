package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import panelbook.colorimetry.signal.Patch;

/** Matches at the prompt against the real service, in order: what one visit leaves the next one starts from. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
@Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class MatchLiveTest {

    @TempDir
    static Path home;

    private static LiveService service;
    private static Desk desk;
    private static String first;

    @BeforeAll
    static void start() {
        service = new LiveService(home);
        service.startAndWait();
        desk = new Desk(home);
        Suite.book(desk);
        gives(
                0,
                "log-in",
                service.address(),
                "--token-file",
                service.tokenFile().toString());
        gives(0, "facility", "enter", "north.yaml");
        Suite.run(desk, "main.csv", Suite.MAIN, "as-left", "2026-03-30T08:00:00Z", 1, 1);
        Suite.run(desk, "client.csv", Suite.CLIENT, "as-left", "2026-03-30T08:30:00Z", 1, 1);
        gives(0, "run", "upload", "main.csv", "client.csv");
        Suite.run(desk, "hero.csv", Suite.MAIN, "match", "2026-03-31T09:00:00Z", 1, 1);
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static void gives(int code, String... command) {
        assertThat(desk.type(command))
                .as("%s said: %s%s", List.of(command), desk.out, desk.err)
                .isEqualTo(code);
        assertThat(desk.err).doesNotContain("\tat ", "should not have happened");
    }

    private static void session(int code, String... lines) {
        desk.typed = String.join("\n", lines) + "\n";
        gives(code, "match", "session");
        desk.typed = "";
    }

    private static String open(String operator, String... more) {
        gives(0, Suite.opening(operator, more));
        assertThat(desk.lines().get(0)).startsWith("Match ");
        return desk.lines().get(0).substring(6, 42);
    }

    /** A match run of the follower that stands {@code clicks} of blue off, one per cent of Z each. */
    private static void follower(String name, String takenAt, int clicks) {
        Suite.run(desk, name, Suite.CLIENT, "match", takenAt, 1, 1 + 0.01 * clicks);
    }

    @Test
    @Order(1)
    void aMatchWithEverythingTrueSaysSoAndItsReadingsTeachWhatAClickDoes() {
        follower("b3.csv", "2026-03-31T09:10:00Z", 3);
        follower("b2.csv", "2026-03-31T09:20:00Z", 2);
        follower("b1.csv", "2026-03-31T09:30:00Z", 1);
        first = open("Mara");
        assertThat(desk.out).doesNotContain("not met", "unknown");
        session(
                0,
                "read hero.csv",
                "read b3.csv",
                "saw bluer whole-image on ten shots",
                "gain.blue -1",
                "read b2.csv",
                "better",
                "gain.blue -1",
                "read b1.csv");
        assertThat(desk.out).contains("try the gain of blue down", "First control: gain.blue.");
        gives(0, "trim", "effects", "Suite 1/Client");
        assertThat(desk.lines()).anyMatch(line -> line.startsWith("gain.blue\t100\tv′\t-"));
    }

    @Test
    @Order(2)
    void aSuggestionOfWholeClicksStaysWithinTheControlsRange() {
        session(0, "suggest");
        assertThat(desk.lines()).contains("gain.blue\t-2\t-3\t-1").anyMatch(line -> line.startsWith("Aim: "));
        gives(0, "display", "control", "set", "Suite 1/Client", "gain.blue", "--least=-2", "--most=0");
        gives(0, "display", "control", "list", "Suite 1/Client");
        assertThat(desk.out).startsWith("gain.blue\tall\t-2\t0\t");
        session(0, "suggest");
        assertThat(desk.lines())
                .contains("gain.blue\t-2\t-2\tleave")
                .anyMatch(line -> line.startsWith("Why not more: ") && line.contains("gain.blue"));
        gives(0, "trim", "suggest", "--follower", Suite.CLIENT, "--hero", Suite.MAIN, "--operator", "Mara", "--json");
    }

    @Test
    @Order(3)
    void itIsSignedWithItsLastReadingsAndTheWayBackIsKept() {
        session(0, "sign --material '12 shots' --remarks 'skin first'");
        assertThat(desk.out).contains("TRIMS\tgain.blue=-2", "MEASURED\ttrue", "MATERIAL\t12 shots");
        gives(0, "match", "restore", first, "--step", "4");
        assertThat(desk.lines()).anyMatch(line -> line.startsWith("gain.blue\t") && line.contains("\t-1\t"));
        gives(0, "match", "list", "--operator", "Mara", "--json=id,storyId");
        assertThat(desk.out).contains("\"storyId\":\"" + first + "\"");
        gives(0, "match", "restore", desk.out.replaceFirst(".*\"id\":\"([^\"]+)\"[^\\n]*\\n", "$1"));
        assertThat(desk.out).contains("gain.blue\t");
    }

    @Test
    @Order(4)
    void theNextMatchStartsFromTheLastTrimsAndAGuardRefusesAGainThatClips() {
        var match = open("Mara", "--from-last");
        assertThat(desk.err).contains("Starting from the trims signed off at ");
        assertThat(desk.out).contains("controls: gain.blue -2");
        Suite.run(desk, "clipped.csv", Suite.CLIENT, "match", "2026-03-31T10:10:00Z", 1, 1, MatchLiveTest::clipped);
        session(3, "gain.blue +5", "read clipped.csv");
        assertThat(desk.out).contains("Guard: gain.blue is REFUSED.", " Before ", ", after ");
        gives(3, "match", "sign", match, "--unmeasured");
        assertThat(desk.err).contains("or override with a reason");
        gives(0, "match", "do", match, "keep gain.blue because the grade is cold on purpose", "note kept");
        gives(0, "match", "sign", match, "--unmeasured");
        assertThat(desk.out).contains("MEASURED\tfalse", "TRIMS\tgain.blue=+3");
        gives(0, "match", "story", match);
        assertThat(desk.out).contains("gain.blue overridden");
    }

    private static Patch clipped(Patch patch) {
        return new Patch(patch.red(), patch.green(), Math.min(patch.blue(), 640));
    }

    @Test
    @Order(5)
    void theHouseChangesWhatAMatchIsTold() {
        gives(
                0,
                "advice",
                "add",
                "Ask for the blue scene.",
                "--moment",
                "observation",
                "--look",
                "bluer",
                "--place",
                "skin");
        gives(
                0,
                "advice",
                "add",
                "Ask for the blue scene.",
                "--moment",
                "observation",
                "--look",
                "bluer",
                "--place",
                "skin");
        assertThat(desk.err).startsWith("There already, unchanged: advice.");
        gives(0, "advice", "list", "--json=id,text");
        var line = desk.out.replaceFirst("(?s).*\\{\"id\":\"([^\"]+)\",\"text\":\"Ask for the blue scene.*", "$1");
        gives(0, "advice", "edit", line, "--text", "Ask for the night scene.", "--control", "hue");
        var match = open("Ilva");
        gives(0, "match", "do", match, "saw bluer skin");
        assertThat(desk.out).contains("Ask for the night scene. First control: hue.");
        gives(0, "advice", "retire", line, "--reason", "no longer true");
        gives(0, "match", "do", match, "saw bluer skin");
        assertThat(desk.out).doesNotContain("night scene");
        gives(0, "match", "give-up", match, "--reason", "only tried");
        gives(0, "match", "stories", "--state", "given-up");
        assertThat(desk.out).contains("Ilva", match);
    }

    @Test
    @Order(6)
    void twoMachinesAtOneMatchOverwriteNothing() throws Exception {
        var match = open("Ilva");
        var other = new Desk(home.resolve("other"));
        assertThat(other.home.toFile().mkdirs()).isTrue();
        other.type(
                "log-in", service.address(), "--token-file", service.tokenFile().toString());
        assertThat(other.type("match", "do", match, "gain.red -1"))
                .as(other.err)
                .isZero();
        gives(0, "match", "do", match, "where");
        assertThat(desk.err).contains("Taken in from another machine: 1 trim gain.red -1");
        service.kill();
        gives(0, "match", "do", match, "gain.red -1", "better");
        service.startAndWait();
        assertThat(other.type("match", "do", match, "back")).as(other.err).isZero();
        gives(0, "match", "do", match, "where");
        assertThat(desk.err).contains("The place of this step was taken on another machine: 2 back 0");
        gives(0, "match", "do", match, "again");
        gives(0, "match", "story", match, "--json=steps");
        assertThat(desk.out.split("\"number\":", -1)).hasSize(1 + 4);
        gives(0, "match", "give-up", match, "--reason", "only tried");
    }

    @Test
    @Order(7)
    void aSignOffWithoutOpeningMayBeUnmeasuredToo() {
        gives(
                0,
                "match",
                "sign-off",
                "--follower",
                Suite.CLIENT,
                "--hero",
                Suite.MAIN,
                "--operator",
                "Joris",
                "--unmeasured");
        assertThat(desk.err).startsWith("Signed off, unmeasured: ");
        gives(0, "match", "list", "--operator", "Joris", "--json=agreedOffset,followerRunId");
        assertThat(desk.out).isEqualTo("[{\"agreedOffset\":null,\"followerRunId\":null}]\n");
    }
}
