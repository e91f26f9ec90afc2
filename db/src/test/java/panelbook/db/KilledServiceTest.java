package panelbook.db;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is left after a service was killed without a chance to say goodbye, or the power failed. */
class KilledServiceTest {
    private static final int ROWS_BEFORE_THE_KILL = 300;

    @TempDir
    Path temporary;

    private Path folder;
    private EmbeddedPostgresSettings settings;
    private Process service;
    private BufferedReader committedRows;

    @BeforeEach
    void nameFolder() throws Exception {
        folder = temporary.toRealPath().resolve("panelbook");
        settings = EmbeddedPostgresSettings.durable(folder);
    }

    @AfterEach
    void leaveNothingRunning() throws Exception {
        if (service != null) {
            service.toHandle().destroyForcibly();
            service.waitFor();
            Optional<ProcessHandle> guard =
                    Files.exists(folder.resolve("guard.pid")) ? noted("guard.pid") : Optional.empty();
            if (guard.isPresent()) {
                guard.get().onExit().get(60, TimeUnit.SECONDS);
            }
        }
    }

    @Test
    void theServerGoesWithItsServiceAndNoCommittedRowIsLost() throws Exception {
        writingService();
        ProcessHandle guard = noted("guard.pid").orElseThrow();
        int committed = killAndCount();

        guard.onExit().get(60, TimeUnit.SECONDS);
        assertThat(Jvm.runningOn(folder)).as("what still runs after the kill").isEmpty();
        assertRowsSurvive(committed);
    }

    @Test
    void theNextStartNeedsNoWaitAndLosesNothing() throws Exception {
        writingService();
        int committed = killAndCount();
        assertRowsSurvive(committed);
    }

    @Test
    void aServerWhoseGuardWasKilledTooIsStoppedByTheNextStart() throws Exception {
        writingService();
        ProcessHandle stray = noted("data/postmaster.pid").orElseThrow();
        noted("guard.pid").orElseThrow().destroyForcibly();
        int committed = killAndCount();
        assertThat(stray.isAlive()).as("the server lives on without its guard").isTrue();

        assertRowsSurvive(committed);
        assertThat(Jvm.runningOn(folder)).noneMatch(line -> line.startsWith(stray.pid() + " "));
    }

    @Test
    void aServerThatWasKilledItselfRecovers() throws Exception {
        writingService();
        noted("data/postmaster.pid").orElseThrow().destroyForcibly();
        noted("guard.pid").orElseThrow().destroyForcibly();
        int committed = killAndCount();
        assertRowsSurvive(committed);
    }

    @Test
    void aNoteOfAServerWhoseNumberIsAnotherProgramsByNowIsNotBelieved() throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(settings)) {
            assertThat(server.port()).isPositive();
        }
        Process bystander = new ProcessBuilder("sleep", "600").start();
        try {
            Files.writeString(
                    folder.resolve("data/postmaster.pid"),
                    bystander.pid() + "\n" + folder.resolve("data")
                            + "\n1700000000\n5432\n\n127.0.0.1\n     1     1\nready\n");
            try (EmbeddedPostgres server = EmbeddedPostgres.start(settings)) {
                assertThat(EmbeddedPostgresTest.ask(
                                server, new Login(server.username(), server.password()), "SELECT 1"))
                        .isEqualTo("1");
            }
            assertThat(bystander.isAlive())
                    .as("the other program is left alone")
                    .isTrue();
        } finally {
            bystander.destroyForcibly();
        }
    }

    /** Starts a service in a JVM of its own that has written some rows. */
    private void writingService() throws Exception {
        service =
                Jvm.start("write", folder.toString(), settings.programsFolder().toString());
        committedRows = Jvm.reader(service);
        for (int row = 1; row <= ROWS_BEFORE_THE_KILL; row++) {
            assertThat(committedRows.readLine())
                    .as("row that the service reports")
                    .isEqualTo(Integer.toString(row));
        }
    }

    /** Kills the service in the middle of its writing; answers how many rows it had reported as committed. */
    private int killAndCount() throws Exception {
        service.toHandle().destroyForcibly();
        service.waitFor();
        int last = ROWS_BEFORE_THE_KILL;
        for (String line = committedRows.readLine(); line != null; line = committedRows.readLine()) {
            // a line that the kill cut short counts for less, never for more
            last = line.matches("\\d+") ? Math.max(last, Integer.parseInt(line)) : last;
        }
        return last;
    }

    private void assertRowsSurvive(int committed) throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(settings)) {
            Login login = new Login(server.username(), server.password());
            int found = Integer.parseInt(EmbeddedPostgresTest.ask(server, login, "SELECT count(*) FROM written"));
            int last = Integer.parseInt(EmbeddedPostgresTest.ask(server, login, "SELECT max(id) FROM written"));
            assertThat(found)
                    .as("rows found, of %d reported as committed", committed)
                    .isBetween(committed, committed + 1)
                    .isEqualTo(last);
        }
        assertThat(Jvm.runningOn(folder)).as("what still runs after close").isEmpty();
    }

    private Optional<ProcessHandle> noted(String file) throws Exception {
        String first = Files.readAllLines(folder.resolve(file)).get(0);
        return ProcessHandle.of(Long.parseLong(first.trim()));
    }
}
