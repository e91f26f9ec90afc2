package panelbook.db;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What a service that was killed, or a machine that lost power, left behind on a data folder: a guard that is still
 * stopping its server, a server that runs on, or the mere note of one.
 *
 * <p>To be used by the holder of the {@link FolderLock} only.
 *
 * @param layout the folder
 * @param user who the server runs as
 * @param programs the server programs
 */
record FormerServer(FolderLayout layout, ServerUser user, PostgresPrograms programs) {
    private static final Logger log = LoggerFactory.getLogger(FormerServer.class);
    private static final Duration GUARD_PATIENCE = Duration.ofMinutes(3);

    /** Leaves no server and no guard on the folder, and no note that would keep the next server from starting. */
    void clear() throws IOException {
        awaitGuard();
        Optional<Long> pid = notedPid();
        if (pid.isEmpty()) {
            return;
        }
        Optional<ProcessHandle> process = ProcessHandle.of(pid.get()).filter(ProcessHandle::isAlive);
        if (process.filter(this::isOurServer).isPresent()) {
            stop(pid.get());
        } else if (process.isPresent()) {
            log.warn(
                    "{} names process {}, which is no server of this folder (any more): it did not stop in order (power cut?)",
                    layout.postmasterNote(),
                    pid.get());
            Files.deleteIfExists(layout.postmasterNote());
        }
        // the note of a process that is gone stays: PostgreSQL checks by it that no orphan still uses the memory
    }

    /** Stops the server that runs on the folder, if one does. */
    void stopIfRunning() throws IOException {
        Optional<Long> pid = notedPid();
        if (pid.isPresent()
                && ProcessHandle.of(pid.get()).filter(this::isOurServer).isPresent()) {
            stop(pid.get());
        }
    }

    private void stop(long pid) throws IOException {
        log.warn("A server of an earlier service still runs on {} (process {}): stopping it", layout.data(), pid);
        Command.Result fast = pgCtlStop("fast", 60);
        Command.Result last = fast.failed() ? pgCtlStop("immediate", 60) : fast;
        if (last.failed()) {
            throw new EmbeddedPostgresException("The PostgreSQL of an earlier service still runs on " + layout.data()
                    + " (process " + pid + ") and does not stop: " + last.describe()
                    + ". Stop that process, then start again.");
        }
    }

    private Command.Result pgCtlStop(String mode, int seconds) throws IOException {
        return user.run(List.of(
                programs.program("pg_ctl").toString(),
                "-D",
                layout.data().toString(),
                "-m",
                mode,
                "-w",
                "-t",
                Integer.toString(seconds),
                "stop"));
    }

    private void awaitGuard() throws IOException {
        Optional<ProcessHandle> guard = notedGuard();
        if (guard.isPresent()) {
            log.info("The guard of an earlier service is stopping its server on {}: waiting for it", layout.data());
            try {
                guard.get().onExit().get(GUARD_PATIENCE.toSeconds(), TimeUnit.SECONDS);
            } catch (TimeoutException slow) {
                log.warn("The guard of an earlier service does not end: ending it");
                guard.get().destroyForcibly();
            } catch (InterruptedException interrupted) {
                Thread.currentThread().interrupt();
                throw new EmbeddedPostgresException("Interrupted while an earlier server stops", interrupted);
            } catch (ExecutionException impossible) {
                throw new IllegalStateException(impossible);
            }
        }
        Files.deleteIfExists(layout.guardNote());
    }

    private Optional<ProcessHandle> notedGuard() throws IOException {
        return firstNumber(layout.guardNote())
                .flatMap(ProcessHandle::of)
                .filter(ProcessHandle::isAlive)
                .filter(process ->
                        commandLine(process).contains(layout.guardScript().toString()));
    }

    private Optional<Long> notedPid() throws IOException {
        return firstNumber(layout.postmasterNote());
    }

    private static Optional<Long> firstNumber(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return Optional.empty();
        }
        return Files.readString(file, StandardCharsets.UTF_8)
                .lines()
                .findFirst()
                .map(String::trim)
                .filter(line -> line.matches("\\d{1,9}"))
                .map(Long::valueOf);
    }

    /** Process numbers are used again: it is ours only when it is a server that works in our data folder. */
    private boolean isOurServer(ProcessHandle process) {
        String commandLine = commandLine(process);
        boolean server = commandLine.split(" ", 2)[0].endsWith("postgres");
        boolean inOurFolder =
                (commandLine + " ").contains(" " + layout.data() + " ") || worksIn(process, layout.data());
        return server && inOurFolder;
    }

    private static boolean worksIn(ProcessHandle process, Path data) {
        try {
            return Files.isSameFile(Path.of("/proc/" + process.pid() + "/cwd"), data);
        } catch (IOException unreadable) {
            return false;
        }
    }

    private static String commandLine(ProcessHandle process) {
        try {
            return Files.readString(Path.of("/proc/" + process.pid() + "/cmdline"), StandardCharsets.UTF_8)
                    .replace('\0', ' ');
        } catch (IOException noProcFileSystem) {
            return process.info().commandLine().orElse("");
        }
    }
}
