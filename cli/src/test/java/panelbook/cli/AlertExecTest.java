package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Each alert event is handed to a program of the user's: at least once, in order, whatever happens to the client. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class AlertExecTest extends CommandTest {

    private static final int KILLS = 6;
    private static final String NOTE = "./note $1.sh";

    /** A program whose name a shell would read otherwise. */
    private void program(String... lines) throws IOException {
        var script = desk.write("note $1.sh", "#!/bin/sh", String.join("\n", lines));
        assertThat(script.toFile().setExecutable(true)).isTrue();
    }

    private List<String> noted() throws IOException {
        var file = home.resolve("noted");
        return Files.exists(file) ? Files.readAllLines(file) : List.of();
    }

    /** Follows once from now, so that there is a place to go on from. */
    private void followOne(String... more) {
        var before = stub.streamStarts.size();
        var happens = new Thread(() -> {
            while (stub.streamStarts.size() == before) {
                Thread.onSpinWait();
            }
            stub.event("the first");
        });
        happens.start();
        done(command(more));
    }

    private static String[] command(String... more) {
        var words = new ArrayList<>(List.of("alert", "follow", "--exec", NOTE));
        words.addAll(List.of(more));
        return words.toArray(String[]::new);
    }

    @Test
    void anEventComesAsJsonOnStandardInputAndInTheEnvironment() throws Exception {
        program("cat >> noted", "echo \"$PANELBOOK_SEQUENCE $PANELBOOK_EVENT $PANELBOOK_CAUSE $1 $2\" >> noted");
        followOne("--count", "1", "a b", "$HOME");
        assertThat(noted().get(0))
                .startsWith("{\"sequence\":1,\"alertId\":\"0f7e3a44-0000-4000-8000-6b1d2c3e4f50\",\"kind\":\"opened\"");
        assertThat(noted().get(1))
                .as("arguments come as they were typed: there is no shell")
                .isEqualTo("1 opened moved a b $HOME");
        assertThat(desk.out).isEmpty();
    }

    @Test
    void aProgramThatFailsIsTriedAgainAfterGrowingPausesAndTheEventIsNotLost() throws Exception {
        program("echo \"$PANELBOOK_SEQUENCE\" >> noted", "test -e mended");
        var pauses = new ArrayList<Long>();
        desk.sleeper = pauses::add;
        stub.event("long ago");
        var before = stub.streamStarts.size();
        var happens = new Thread(() -> {
            while (stub.streamStarts.size() == before) {
                Thread.onSpinWait();
            }
            stub.event("one");
            stub.event("two");
        });
        happens.start();
        assertThat(desk.type(command())).isEqualTo(1);
        assertThat(desk.err)
                .contains("ended with 1 on event 2. Trying again in 1 s.")
                .contains("on event 2, 5 times. Put it right and start the same command again");
        assertThat(pauses).containsExactly(1000L, 2000L, 4000L, 8000L);
        assertThat(noted()).containsExactly("2", "2", "2", "2", "2");
        desk.write("mended");
        done(command("--count", "2"));
        assertThat(noted().subList(5, 7)).containsExactly("2", "3");
    }

    @Test
    void filtersKeepEventsFromTheProgramAndFromTheScreen() throws Exception {
        program("echo \"$PANELBOOK_SEQUENCE\" >> noted");
        followOne("--count", "1");
        stub.event("closing", "closed", false);
        stub.event("explained by another", "opened", true);
        stub.event("opening", "opened", false);
        done(command("--kind", "opened", "--count", "1"));
        assertThat(noted()).containsExactly("1", "4");
        done("alert", "follow", "--since", "1", "--count", "3", "--held", "--json=headline");
        assertThat(desk.lines()).hasSize(3).anyMatch(line -> line.contains("explained by another"));
        done("alert", "follow", "--since", "1", "--count", "2", "--json=headline");
        assertThat(desk.out).doesNotContain("explained by another");
        fails(2, "is none of: opened, updated", "alert", "follow", "--kind", "shut");
        fails(2, "Only the program of --exec takes arguments", "alert", "follow", "stray");
        fails(2, "goes without --resume and --exec", command("--since", "1"));
    }

    @Test
    void twoFiltersOfOneProgramLeaveEachOtherNothingOut() throws Exception {
        program("echo \"$PANELBOOK_SEQUENCE\" >> noted");
        followOne("--count", "1");
        stub.event("opening", "opened", false);
        stub.event("closing", "closed", false);
        done(command("--kind", "closed", "--count", "1"));
        done(command("--kind", "opened", "--count", "1"));
        assertThat(noted()).as("the opening comes before the end").containsExactly("1", "3", "2");
    }

    @Test
    void aProgramThatCannotBeStartedIsSaidAtOnceAndThePlaceIsKept() throws Exception {
        program("echo \"$PANELBOOK_SEQUENCE\" >> noted");
        followOne("--count", "1");
        Files.delete(home.resolve("note $1.sh"));
        stub.event("two");
        fails(1, "could not be started", command("--count", "1"));
        program("echo \"$PANELBOOK_SEQUENCE\" >> noted");
        done(command("--count", "1"));
        assertThat(noted()).containsExactly("1", "2");
    }

    /** kill -9 at seeded moments, while events happen and the program works. */
    @Test
    void aKilledClientGoesOnWithoutLeavingAnEventOut() throws Exception {
        program("sleep 0.02", "echo \"$PANELBOOK_SEQUENCE\" >> noted");
        followOne("--count", "1");
        var random = new Random(6);
        for (var kill = 0; kill < KILLS; kill++) {
            var client = Forked.java(
                    home.resolve("client.log"),
                    List.of(),
                    Forked.classPath(),
                    FollowLoop.class.getName(),
                    home.toString(),
                    NOTE);
            for (var i = 0; i < 10; i++) {
                stub.event("event");
                client.waitFor(random.nextInt(150), TimeUnit.MILLISECONDS);
            }
            assertThat(client.isAlive())
                    .as(Files.readString(home.resolve("client.log")))
                    .isTrue();
            client.destroyForcibly().waitFor();
        }
        stub.event("the last");
        while (!noted().contains(String.valueOf(stub.events.size()))) {
            done(command("--count", "1"));
        }
        var seen = noted().stream().map(Long::valueOf).toList();
        assertThat(seen.stream().distinct().sorted())
                .as("every event was handed over")
                .containsExactlyElementsOf(
                        LongStream.rangeClosed(1, stub.events.size()).boxed().toList());
        assertThat(seen.size() - stub.events.size())
                .as("no more repeats than kills")
                .isBetween(0, KILLS);
    }
}
