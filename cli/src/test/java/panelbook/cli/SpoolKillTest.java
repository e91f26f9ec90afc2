package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The client is killed while it uploads, spools and sends; the service comes and goes. */
class SpoolKillTest extends CommandTest {

    private static final int KILLS = 24;
    private static final int RUNS_AHEAD = 40;

    /**
     * Every run that a client acknowledged before it was killed is stored in the end, once, and runs are stored in the
     * order in which they were given.
     */
    @Test
    @Timeout(value = 180, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void killingTheClientInMidSpoolAndInMidSendLosesNothingDoublesNothingAndKeepsTheOrder() throws Exception {
        var random = new Random(20260331);
        run("run0.csv", "2026-03-31T00:00:00Z");
        done("run", "upload", "run0.csv");
        var acknowledged = 0;
        for (var kill = 0; kill < KILLS; kill++) {
            var away = kill % 3 != 2;
            if (away) {
                stub.stop();
            }
            for (var number = acknowledged + 1; number <= acknowledged + RUNS_AHEAD; number++) {
                run(
                        "run" + number + ".csv",
                        "2026-03-31T%02d:%02d:%02dZ".formatted(number / 3600, number / 60 % 60, number % 60));
            }
            var loop = Forked.java(
                    home.resolve("loop.log"),
                    List.of(),
                    Forked.classPath(),
                    UploadLoop.class.getName(),
                    home.toString(),
                    Integer.toString(acknowledged + 1),
                    Integer.toString(RUNS_AHEAD));
            var ended = loop.waitFor(300 + random.nextInt(700), TimeUnit.MILLISECONDS);
            loop.destroyForcibly().waitFor();
            assertThat(ended && loop.exitValue() == 1)
                    .as("the client failed by itself: %s", Files.readString(home.resolve("loop.log")))
                    .isFalse();
            acknowledged = lastAcknowledged();
            if (away) {
                stub.restart();
            }
        }
        done("spool", "send");
        done("spool", "list");
        assertThat(desk.out).as("the spool is empty in the end").isEmpty();
        var stored = stub.runsInOrder.stream()
                .map(run -> (String) run.get("fileName"))
                .toList();
        assertThat(stored).doesNotHaveDuplicates();
        assertThat(stored)
                .containsAll(IntStream.rangeClosed(0, acknowledged)
                        .mapToObj(n -> "run" + n + ".csv")
                        .toList());
        assertThat(stored.stream().map(SpoolKillTest::number).toList())
                .as("order of storing")
                .isSorted();
        assertThat(acknowledged).as("the loop got somewhere").isGreaterThan(KILLS);
        assertThat(stub.seen.stream().filter(s -> s.path().equals("/runs")).count())
                .isGreaterThanOrEqualTo(stored.size());
    }

    private static int number(String file) {
        return Integer.parseInt(file.replaceAll("\\D", ""));
    }

    private int lastAcknowledged() throws Exception {
        var file = home.resolve("acknowledged");
        if (!Files.exists(file)) {
            return 0;
        }
        var lines = Files.readAllLines(file);
        return lines.isEmpty() ? 0 : Integer.parseInt(lines.get(lines.size() - 1));
    }
}
