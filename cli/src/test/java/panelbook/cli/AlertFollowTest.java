package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Following alerts: every event once and in order, whatever happens to the service and to the client. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class AlertFollowTest extends CommandTest {

    private List<String> headlines() {
        return desk.lines().stream().map(line -> line.split("\t")[7]).toList();
    }

    @Test
    void eventsSinceAPlaceArePrintedInOrderAndCountStops() {
        for (var i = 1; i <= 5; i++) {
            stub.event("event " + i);
        }
        done("alert", "follow", "--since", "2", "--count", "2");
        assertThat(headlines()).containsExactly("event 3", "event 4");
        assertThat(desk.lines().get(0)).startsWith("3\t2026-03-31T10:00:00Z\topened\tmoved\t");
        done("alert", "follow", "--since", "0", "--count", "1", "--json=sequence,kind");
        assertThat(desk.out).isEqualTo("{\"sequence\":1,\"kind\":\"opened\"}\n");
    }

    /** The service goes away three times; events happen before, between and while it is away. */
    @Test
    void theStreamIsTakenUpAfterRestartsWithoutAGapOrARepeat() {
        stub.event("before");
        var pauses = new ArrayList<Long>();
        var restarts = new int[1];
        desk.sleeper = millis -> {
            pauses.add(millis);
            if (pauses.size() % 2 == 0 && restarts[0]++ < 3) {
                stub.event("while away " + restarts[0]);
                stub.restart();
                stub.event("after restart " + restarts[0]);
            }
        };
        var stopper = new Thread(() -> {
            for (var i = 1; i <= 3; i++) {
                waitForStreams(i);
                stub.event("while there " + i);
                stub.stop();
            }
        });
        stopper.start();
        done("alert", "follow", "--since", "1", "--count", "9");
        assertThat(headlines())
                .containsExactlyElementsOf(stub.events.stream()
                        .skip(1)
                        .map(e -> (String) e.get("headline"))
                        .toList());
        assertThat(desk.err).contains("broke (", "Trying again until it is back.", "The stream is back.");
        assertThat(pauses).allSatisfy(pause -> assertThat(pause).isBetween(1L, 30_000L));
    }

    private void waitForStreams(int count) {
        while (stub.streamStarts.size() < count) {
            Thread.onSpinWait();
        }
    }

    @Test
    void followingFromNowMissesNothingWhenTheStreamBreaksBeforeTheFirstEvent() throws Exception {
        stub.event("long ago");
        var away = new CountDownLatch(1);
        desk.sleeper = millis -> {
            away.await(30, TimeUnit.SECONDS);
        };
        var breaker = new Thread(() -> {
            waitForStreams(1);
            try {
                Thread.sleep(200); // let the client read the place at which the stream begins
            } catch (InterruptedException e) {
                return;
            }
            stub.stop();
            stub.event("while away");
            stub.restart();
            away.countDown();
        });
        breaker.start();
        done("alert", "follow", "--count", "1");
        assertThat(headlines()).containsExactly("while away");
    }

    @Test
    void resumeGoesOnWhereTheLastOneEnded() {
        stub.event("1");
        stub.event("2");
        stub.event("3");
        done("alert", "follow", "--since", "0", "--count", "3");
        var waiter = new Thread(() -> {
            waitForStreams(2);
            stub.event("4");
        });
        waiter.start();
        done("alert", "follow", "--resume", "--count", "1");
        assertThat(headlines()).as("the first --resume begins now").containsExactly("4");
        stub.event("5");
        stub.event("6");
        done("alert", "follow", "--resume", "--count", "2");
        assertThat(headlines()).containsExactly("5", "6");
        stub.event("7");
        done("alert", "follow", "--resume", "--count", "1");
        assertThat(headlines()).containsExactly("7");
    }

    @Test
    void whoMayNotListenIsToldSoAndBadPlacesAreRefused() {
        desk.write("token", "wrong");
        desk.environment.put("PANELBOOK_TOKEN_FILE", "token");
        fails(1, "Log in again", "alert", "follow", "--count", "1");
        desk.environment.remove("PANELBOOK_TOKEN_FILE");
        fails(2, "--since takes a number from 0 and goes without --resume", "alert", "follow", "--since", "-1");
        fails(
                2,
                "--since takes a number from 0 and goes without --resume",
                "alert",
                "follow",
                "--since",
                "1",
                "--resume");
        fails(2, "--count must be 1 or more", "alert", "follow", "--count", "0");
        fails(2, "is none of: moved, off-target", "alert", "follow", "--cause", "drift");
    }
}
