package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import panelbook.cli.json.Json;

/**
 * A visit from the opening of a match to its sign-off, typed into the real client and kept by the real service: once left in
 * peace, and once with each of the two killed in the middle. Both leave the same record.
 */
class MatchVisitTest {

    private static final List<String> STEPS = List.of(
            "saw redder skin on beach, shot 3",
            "read before.csv",
            "gain.red -1",
            "gain.red -2 -- past it on purpose",
            "worse",
            "back 3",
            "better",
            "saw bluer shadows",
            "bias.blue@low -1",
            "better",
            "read after.csv",
            "read hero.csv",
            "note the client agrees");
    private static final int CLIENT_DIES_AFTER = 4;
    private static final int SERVICE_DIES_AFTER = 8;
    private static final int SERVICE_IS_BACK_AFTER = 11;
    private static final Set<String> OF_THE_CLOCK = Set.of("id", "at", "openedAt", "signedAt", "storyId", "recordedAt");

    @TempDir
    Path folder;

    @Test
    @Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void clientAndServiceKilledInTheMiddleLeaveTheSameRecordAsAVisitInPeace() throws Exception {
        var undisturbed = visit(folder.resolve("peace"), false);
        var killed = visit(folder.resolve("kills"), true);
        assertThat(killed.get("story")).isEqualTo(undisturbed.get("story"));
        assertThat(killed).isEqualTo(undisturbed);
        assertThat(killed.get("steps")).asString().startsWith("13");
    }

    private static Map<String, Object> visit(Path home, boolean kills) throws Exception {
        Files.createDirectories(home);
        try (var service = new LiveService(home)) {
            service.startAndWait();
            var desk = new Desk(home);
            prepare(desk, service);
            var match = open(desk);
            type(home, service, match, kills);
            var record = record(desk, match);
            service.stop();
            assertThat(service.strays()).as("processes left behind").isEmpty();
            return record;
        }
    }

    private static void gives(Desk desk, int code, String... command) {
        assertThat(desk.type(command))
                .as("%s said: %s%s", List.of(command), desk.out, desk.err)
                .isEqualTo(code);
    }

    private static void prepare(Desk desk, LiveService service) {
        Suite.book(desk);
        gives(
                desk,
                0,
                "log-in",
                service.address(),
                "--token-file",
                service.tokenFile().toString());
        gives(desk, 0, "facility", "enter", "north.yaml");
        Suite.run(desk, "main.csv", Suite.MAIN, "as-left", "2026-03-31T08:00:00Z", 1, 1);
        Suite.run(desk, "client.csv", Suite.CLIENT, "as-left", "2026-03-31T08:30:00Z", 1, 1);
        gives(desk, 0, "run", "upload", "main.csv", "client.csv");
        Suite.run(desk, "before.csv", Suite.CLIENT, "match", "2026-03-31T09:00:00Z", 1, 1);
        Suite.run(desk, "after.csv", Suite.CLIENT, "match", "2026-03-31T09:40:00Z", 0.99, 1.002);
        Suite.run(desk, "hero.csv", Suite.MAIN, "match", "2026-03-31T09:50:00Z", 1, 1);
    }

    private static String open(Desk desk) {
        var code = desk.type(Suite.opening("Mara", "--json=id"));
        assertThat(code).as(desk.out + desk.err).isIn(0, 3); // the runs are older than the policy allows, in real time
        return desk.out.replaceAll(".*\"id\":\"([^\"]+)\".*\\s*", "$1");
    }

    /** Types every step and waits for its answer; a client that was killed is started anew and goes on after the last answer. */
    private static void type(Path home, LiveService service, String match, boolean kills) {
        var client = session(home, match);
        for (var number = 1; number <= STEPS.size(); number++) {
            client.type(STEPS.get(number - 1));
            assertThat(client.awaits(number + "  ")).as(client.seen()).isTrue();
            if (kills && number == CLIENT_DIES_AFTER) {
                client.kill();
                client = session(home, match);
            }
            if (kills && number == SERVICE_DIES_AFTER) {
                service.kill();
            }
            if (kills && number == SERVICE_IS_BACK_AFTER) {
                assertThat(client.seen()).contains("not sent yet");
                service.startAndWait();
            }
        }
        client.type("sign --material '12 shots' --remarks 'skin first'");
        assertThat(client.end()).as(client.seen()).isZero();
        assertThat(client.seen()).contains("Signed off: North/Suite 1/Client/HDR to North/Suite 1/Main/HDR for Mara");
    }

    private static ClientProcess session(Path home, String match) {
        var client = new ClientProcess(home, "match", "session", match);
        assertThat(client.awaits("North/Suite 1/Client/HDR to "))
                .as(client.seen())
                .isTrue();
        return client;
    }

    private static Map<String, Object> record(Desk desk, String match) throws Exception {
        var record = new LinkedHashMap<String, Object>();
        gives(desk, 0, "match", "story", match, "--json");
        var story = (Map<?, ?>) Json.parse(desk.out);
        record.put("steps", ((List<?>) story.get("steps")).size());
        record.put("story", withoutTheClock(story));
        gives(desk, 0, "match", "list", "--json");
        record.put("matches", withoutTheClock(Json.parse(desk.out)));
        gives(desk, 0, "run", "list", "--preset", Suite.CLIENT);
        record.put(
                "runs", desk.lines().stream().map(line -> line.split("\t")[2]).toList());
        gives(desk, 0, "match", "restore", match, "--step", "3", "--json=changes,state");
        record.put("restoration", desk.out);
        gives(desk, 0, "spool", "list");
        record.put("spool", desk.out);
        return record;
    }

    private static Object withoutTheClock(Object tree) {
        if (tree instanceof Map<?, ?> map) {
            var kept = new LinkedHashMap<String, Object>();
            map.forEach((name, value) -> {
                // ids of what was measured are made from what was measured; all others are new in every visit
                if (!OF_THE_CLOCK.contains(String.valueOf(name))
                        && !String.valueOf(name).endsWith("Id")) {
                    kept.put(String.valueOf(name), withoutTheClock(value));
                }
            });
            return kept;
        }
        if (tree instanceof List<?> list) {
            var kept = new ArrayList<Object>();
            list.forEach(item -> kept.add(withoutTheClock(item)));
            return kept;
        }
        return String.valueOf(tree);
    }
}
