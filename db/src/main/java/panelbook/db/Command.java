package panelbook.db;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;

/** Programs of the operating system, run in an environment that cannot change what PostgreSQL does. */
final class Command {
    private Command() {}

    /**
     * How a program ended.
     *
     * @param exitCode 0 when all went well; -1 when the program could not be started
     * @param output what it printed, on both streams
     */
    record Result(int exitCode, String output) {
        boolean failed() {
            return exitCode != 0;
        }

        String describe() {
            String text = output.strip();
            return text.isEmpty() ? "exit code " + exitCode : text;
        }
    }

    static Result run(List<String> command) throws IOException {
        return run(command, "");
    }

    /** Runs a program to its end, with a short text as its input. */
    static Result run(List<String> command, String input) throws IOException {
        Process process;
        try {
            process = builder(command).redirectErrorStream(true).start();
        } catch (IOException missing) {
            return new Result(-1, String.valueOf(missing.getMessage()));
        }
        try (var in = process.getOutputStream()) {
            in.write(input.getBytes(StandardCharsets.UTF_8));
        } catch (IOException deaf) {
            // a program that ended without reading its input tells why by its exit code
        }
        try (var out = process.getInputStream()) {
            String output = new String(out.readAllBytes(), StandardCharsets.UTF_8);
            return new Result(process.waitFor(), output);
        } catch (InterruptedException interrupted) {
            throw interrupted(process);
        }
    }

    /** Starts of a program, with PostgreSQL's own variables taken out and messages in English. */
    static ProcessBuilder builder(List<String> command) {
        ProcessBuilder builder = new ProcessBuilder(command);
        Map<String, String> environment = builder.environment();
        environment.keySet().removeIf(name -> name.startsWith("PG") || name.startsWith("LC_"));
        environment.put("LC_ALL", "C");
        environment.put("LANG", "C");
        return builder;
    }

    private static IOException interrupted(Process process) {
        process.destroy();
        Thread.currentThread().interrupt();
        return new InterruptedIOException("Interrupted while waiting for a program of the operating system");
    }
}
