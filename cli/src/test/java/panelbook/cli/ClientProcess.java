package panelbook.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** The client in a process of its own, at whose keyboard a test sits; it can be killed. */
final class ClientProcess implements AutoCloseable {

    private final Process process;
    private final PrintStream keyboard;
    private final BufferedReader screen;
    private final StringBuilder seen = new StringBuilder();

    ClientProcess(Path home, String... arguments) {
        var command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xshare:auto",
                "-cp",
                String.join(java.io.File.pathSeparator, Forked.classPath()),
                Main.class.getName()));
        command.addAll(List.of(arguments));
        var builder = new ProcessBuilder(command).directory(home.toFile()).redirectErrorStream(true);
        builder.environment().put("HOME", home.toString());
        List.of("XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME").forEach(builder.environment()::remove);
        try {
            process = builder.start();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        keyboard = new PrintStream(process.getOutputStream(), true, StandardCharsets.UTF_8);
        screen = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    }

    /** Types a line. */
    void type(String line) {
        keyboard.println(line);
    }

    /** Reads on until a line begins so; false when the process ends before. */
    boolean awaits(String beginning) {
        return awaits(line -> line.startsWith(beginning));
    }

    /** Whether it prints such a line, which is waited for. */
    boolean awaits(Predicate<String> said) {
        for (var line = next(); line != null; line = next()) {
            if (said.test(line)) {
                return true;
            }
        }
        return false;
    }

    private @Nullable String next() {
        try {
            var line = screen.readLine();
            if (line != null) {
                seen.append(line).append('\n');
            }
            return line;
        } catch (IOException e) {
            return null; // killed
        }
    }

    /** kill -9; what it had printed can still be read. */
    void kill() {
        process.toHandle().destroyForcibly(); // Process.destroyForcibly throws away what was printed
        end();
    }

    /** Leaves the keyboard and waits for the end; the exit code comes back. */
    int end() {
        keyboard.close();
        while (next() != null) {
            continue;
        }
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS)) {
                throw new AssertionError("the client does not end:\n" + seen);
            }
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
        return process.exitValue();
    }

    /** Everything that it printed so far. */
    String seen() {
        return seen.toString();
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}
