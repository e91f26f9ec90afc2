package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Semaphore;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The real service on its durable PostgreSQL is killed again and again while a client uploads. */
class ServiceKillTest {

    private static final int KILLS = 50;
    private static final int UPLOADS_WHILE_AWAY = 3;
    private static final Instant FIRST = Instant.parse("2026-03-31T00:00:00Z");

    @TempDir
    Path home;

    private final List<String> acknowledged = Collections.synchronizedList(new ArrayList<>());
    private final Semaphore whileAway = new Semaphore(0);
    private final AtomicBoolean over = new AtomicBoolean();
    private final AtomicInteger answered = new AtomicInteger();

    /**
     * Half of the kills hit the service while it starts or its database recovers, half while it takes runs. Every upload
     * that the client called done, stored or spooled, is in the book in the end, once; nothing works on the data when
     * the last service is gone.
     */
    @Test
    @Timeout(value = 900, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void fiftyKillsDuringAnUploadLoopLoseNoAcknowledgedRunAndDoubleNone() throws Exception {
        var random = new Random(50);
        try (var service = new LiveService(home)) {
            service.startAndWait();
            var desk = new Desk(home);
            enter(desk, service);
            service.stop();
            var uploader = new Thread(this::uploadUntilOver, "uploader");
            uploader.start();
            for (var kill = 0; kill < KILLS; kill++) {
                service.start();
                whileAway.release(UPLOADS_WHILE_AWAY);
                if (kill % 2 == 0) {
                    assertThat(service.endsWithin(100 + random.nextInt(3500)))
                            .as("ended by itself:%n%s", service.log())
                            .isFalse();
                } else {
                    service.awaitReady();
                    whileAway.release(UPLOADS_WHILE_AWAY);
                    awaitAnswered(answered.get() + 1 + random.nextInt(5), service);
                    service.endsWithin(random.nextInt(40));
                }
                service.kill();
            }
            service.startAndWait();
            over.set(true);
            whileAway.release(UPLOADS_WHILE_AWAY);
            uploader.join();
            finish(desk);
            service.kill();
            assertThat(service.strays()).as("processes left behind").isEmpty();
        }
    }

    private void enter(Desk desk, LiveService service) {
        Suite.book(desk);
        type(
                desk,
                "log-in",
                service.address(),
                "--token-file",
                service.tokenFile().toString());
        type(desk, "facility", "enter", "north.yaml");
        Suite.run(desk, "as-left.csv", Suite.MAIN, "as-left", FIRST.toString(), 1, 1);
        type(desk, "run", "upload", "as-left.csv");
        acknowledged.add(FIRST.toString());
    }

    private static void type(Desk desk, String... command) {
        assertThat(desk.type(command))
                .as("%s: %s%s", List.of(command), desk.out, desk.err)
                .isZero();
    }

    private void uploadUntilOver() {
        var desk = new Desk(home);
        for (var number = 1; !over.get(); number++) {
            var takenAt = FIRST.plusSeconds(number).toString();
            Suite.run(desk, "run.csv", Suite.MAIN, "check", takenAt, 1, 1);
            var code = desk.type("run", "upload", "run.csv");
            if (code != 0) {
                acknowledged.add("failed: " + desk.err);
                return;
            }
            acknowledged.add(takenAt);
            if (desk.out.contains("spooled")) {
                whileAway.acquireUninterruptibly();
            } else {
                answered.incrementAndGet();
            }
        }
    }

    private void awaitAnswered(int count, LiveService service) {
        while (answered.get() < count) {
            assertThat(service.endsWithin(5))
                    .as("ended by itself:%n%s", service.log())
                    .isFalse();
            assertThat(acknowledged).noneMatch(line -> line.startsWith("failed"));
        }
    }

    private void finish(Desk desk) {
        type(desk, "spool", "send");
        type(desk, "spool", "list");
        assertThat(desk.out).as("the spool is empty").isEmpty();
        type(desk, "run", "list", "--preset", Suite.MAIN, "--limit", "100000");
        var stored = desk.lines().stream().map(line -> line.split("\t")[2]).toList();
        assertThat(stored)
                .as("every run once")
                .doesNotHaveDuplicates()
                .containsExactlyInAnyOrderElementsOf(acknowledged);
        assertThat(answered.get()).as("uploads that were answered at once").isGreaterThan(KILLS / 2);
        System.out.println(
                KILLS + " kills, " + stored.size() + " runs, " + answered.get() + " of them answered at once");
    }
}
