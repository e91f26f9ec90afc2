package panelbook.db;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InterruptedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * The small shell process beside the service that starts the server and stops it as soon as the service is gone,
 * {@code kill -9} included: it waits for the end of a pipe that only the service holds open.
 */
final class ServerGuard {
    private static final String SCRIPT = "guard.sh";
    private static final int PATIENCE_SECONDS = 200;

    private final Process process;
    private final BufferedReader reports;

    private ServerGuard(Process process) {
        this.process = process;
        this.reports = process.inputReader(StandardCharsets.UTF_8);
    }

    /** Starts the guard, which goes on to start the server; {@link #awaitStart()} tells how that went. */
    static ServerGuard start(FolderLayout layout, ServerUser user, PostgresPrograms programs, boolean durable)
            throws IOException {
        OwnerOnly.write(layout.guardScript(), script());
        user.own(layout.guardScript());
        List<String> command = user.as(List.of(
                "sh",
                layout.guardScript().toString(),
                programs.program("pg_ctl").toString(),
                layout.data().toString(),
                layout.startLog().toString(),
                durable ? "fast" : "immediate",
                durable ? "" : layout.folder().toString()));
        Path complaints = layout.logs().resolve("guard.log");
        OwnerOnly.write(complaints, "");
        Process process =
                Command.builder(command).redirectError(complaints.toFile()).start();
        OwnerOnly.write(layout.guardNote(), process.pid() + "\n");
        user.own(layout.logs());
        return new ServerGuard(process);
    }

    private static String script() throws IOException {
        try (@Nullable InputStream in = ServerGuard.class.getResourceAsStream(SCRIPT)) {
            if (in == null) {
                throw new IllegalStateException("The resource " + SCRIPT + " is missing from the program's archive");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /**
     * Waits until the server accepts connections, however long its recovery takes.
     *
     * @return whether it does; when not, the logs tell why
     */
    boolean awaitStart() throws IOException {
        @Nullable String report = reports.readLine();
        return report != null && report.startsWith("0 ");
    }

    /** Tells the guard to stop the server and waits until both are gone; repeated calls are harmless. */
    void stop() throws IOException {
        process.getOutputStream().close();
        try {
            if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("Interrupted while the embedded PostgreSQL stops");
        }
    }
}
