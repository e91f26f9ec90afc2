package panelbook.app.testing;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import panelbook.db.testing.TestDatabase;
import tools.jackson.databind.cfg.EnumFeature;
import tools.jackson.databind.json.JsonMapper;

/** One instance of the service in a process of its own, on a database that others may share; it can be killed. */
public final class Instance implements AutoCloseable {

    private static final long PATIENCE_MILLIS = 120_000;

    private final TestDatabase database;
    private final Path folder;
    private final String name;
    private final List<String> properties;
    private final int port = freePort();
    private Process process;

    /** {@code properties} as on the command line. */
    public Instance(TestDatabase database, Path folder, String name, List<String> properties) {
        this.database = database;
        this.folder = folder;
        this.name = name;
        this.properties = properties;
    }

    /** A port that nobody listens on. */
    public static int freePort() {
        try (var socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Starts it and does not wait. */
    public void start() {
        var command = new ArrayList<String>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx400m", "-cp", classPath()));
        command.add("panelbook.app.PanelbookApplication");
        command.add("--server.port=" + port);
        command.add("--spring.datasource.url=" + database.jdbcUrl());
        command.add("--spring.datasource.username=" + database.username());
        command.add("--spring.datasource.password=" + database.password());
        command.add("--panelbook.first-token-file=" + tokenFile());
        command.addAll(properties);
        try {
            process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.appendTo(log().toFile()))
                    .start();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Waits until it answers. */
    public void awaitReady() {
        var deadline = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(PATIENCE_MILLIS);
        while (!isReady()) {
            if (endsWithin(50) || System.nanoTime() > deadline) {
                throw new AssertionError("the service did not start: " + logText());
            }
        }
    }

    private boolean isReady() {
        try {
            return http(null).get("/actuator/health/readiness").status() == 200;
        } catch (UncheckedIOException away) {
            return false;
        }
    }

    /** This instance as seen by the holder of the first token. */
    public Http engineer() {
        try {
            return http(Files.readString(tokenFile()).strip());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Http http(String token) {
        var json = JsonMapper.builder()
                .enable(EnumFeature.READ_ENUMS_USING_TO_STRING, EnumFeature.WRITE_ENUMS_USING_TO_STRING)
                .build();
        return new Http(URI.create("http://127.0.0.1:" + port), token, json);
    }

    /** Whether it ends by itself within a time; else the time has passed. */
    public boolean endsWithin(long millis) {
        try {
            return process.waitFor(millis, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /** kill -9. */
    public void kill() {
        process.destroyForcibly();
        endsWithin(PATIENCE_MILLIS);
    }

    /** What it wrote. */
    public String logText() {
        try {
            return Files.readString(log());
        } catch (IOException e) {
            return "(no log)";
        }
    }

    private Path log() {
        return folder.resolve(name + ".log");
    }

    private Path tokenFile() {
        return folder.resolve("engineer.token");
    }

    /** The tests' own classes stay out: the service would take in what they change of it. */
    private static String classPath() {
        var path = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return String.join(
                File.pathSeparator,
                List.of(path.split(File.pathSeparator)).stream()
                        .filter(entry -> !entry.endsWith("/server/app/target/test-classes"))
                        .toList());
    }

    @Override
    public void close() {
        if (process != null && process.isAlive()) {
            kill();
        }
    }
}
