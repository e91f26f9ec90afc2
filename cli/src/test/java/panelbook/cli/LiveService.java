package panelbook.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.HttpURLConnection;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The real service on its embedded, durable PostgreSQL, in a process of its own that can be killed. */
final class LiveService implements AutoCloseable {

    private static final int PATIENCE_SECONDS = 120;

    private final Path folder;
    private final int port;
    private Process process;

    LiveService(Path folder) {
        this.folder = folder;
        try (var socket = new ServerSocket(0)) {
            port = socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    String address() {
        return "http://localhost:" + port;
    }

    Path tokenFile() {
        return folder.resolve("engineer.token");
    }

    Path dataFolder() {
        return folder.resolve("data");
    }

    String log() {
        try {
            return Files.readString(folder.resolve("service.log"));
        } catch (IOException e) {
            return "(no log)";
        }
    }

    /** Starts it and does not wait. The second start and later ones use an archive of classes where the first could make one. */
    void start() {
        var classPath = Forked.classPath().stream()
                .filter(entry -> !entry.endsWith("/cli/target/classes") && !entry.endsWith("/cli/target/test-classes"))
                .toList();
        var options = new ArrayList<>(List.of("-Xmx700m", "-Xlog:disable", "-Xlog:all=error:stderr"));
        var archive = folder.resolve("service.jsa");
        if (Files.exists(archive)) {
            options.add("-XX:SharedArchiveFile=" + archive);
        } else if (classPath.stream().noneMatch(entry -> Files.isDirectory(Path.of(entry)))) {
            options.add("-XX:ArchiveClassesAtExit=" + archive);
        }
        process = Forked.java(
                folder.resolve("service.log"),
                options,
                classPath,
                "panelbook.app.PanelbookApplication",
                "--server.port=" + port,
                "--panelbook.data-folder=" + dataFolder(),
                "--panelbook.first-token-file=" + tokenFile());
    }

    void startAndWait() {
        start();
        awaitReady();
    }

    /** Waits until it answers. */
    void awaitReady() {
        var deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        while (!isReady()) {
            if (endsWithin(50)) {
                throw new AssertionError("the service ended by itself:\n" + log());
            }
            if (System.nanoTime() > deadline) {
                throw new AssertionError("the service does not answer:\n" + log());
            }
        }
    }

    boolean isReady() {
        try {
            var connection = (HttpURLConnection)
                    URI.create(address() + "/actuator/health/readiness").toURL().openConnection();
            connection.setConnectTimeout(500);
            connection.setReadTimeout(2000);
            return connection.getResponseCode() == 200;
        } catch (IOException e) {
            return false;
        }
    }

    /** Whether it ends by itself within a time; else the time has passed. */
    boolean endsWithin(long millis) {
        try {
            return process.waitFor(millis, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /** kill -9. */
    void kill() {
        process.destroyForcibly();
        endsWithin(PATIENCE_SECONDS * 1000L);
    }

    /** Stops it in order. */
    void stop() {
        process.destroy();
        if (!endsWithin(PATIENCE_SECONDS * 1000L)) {
            kill();
            throw new AssertionError("the service did not stop:\n" + log());
        }
    }

    /** Processes that still work on its data. */
    List<String> processesOnItsData() {
        return ProcessHandle.allProcesses()
                .filter(p ->
                        p.info().commandLine().orElse("").contains(dataFolder().toString()))
                .map(p -> p.pid() + " " + p.info().commandLine().orElse(""))
                .toList();
    }

    /** Waits until nothing works on its data any more; what is left then comes back. */
    List<String> strays() throws InterruptedException {
        var deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(30);
        while (!processesOnItsData().isEmpty() && System.nanoTime() < deadline) {
            TimeUnit.MILLISECONDS.sleep(50);
        }
        return processesOnItsData();
    }

    @Override
    public void close() {
        if (process != null && process.isAlive()) {
            stop();
        }
    }
}
