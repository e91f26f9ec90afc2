package panelbook.cli;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import panelbook.cli.terminal.Surroundings;

/** A person's or a script's place at the prompt: a home folder, an environment, and what the last command printed. */
final class Desk {

    static final Instant NOW = Instant.parse("2026-03-31T12:00:00Z");

    final Path home;
    final Map<String, String> environment = new HashMap<>();
    boolean terminal;

    /** What the client takes the time to be. */
    Clock clock = Clock.fixed(NOW, ZoneOffset.UTC);

    boolean typing;
    int width;
    String out = "";
    String err = "";
    String typed = "";
    Surroundings.Sleeper sleeper = millis -> Thread.yield();

    Desk(Path home) {
        this.home = home;
        environment.put("HOME", home.toString());
    }

    /** Types a command and returns its exit code. */
    int type(String... arguments) {
        var outBytes = new ByteArrayOutputStream();
        var errBytes = new ByteArrayOutputStream();
        var code = Main.run(surroundings(outBytes, errBytes), arguments);
        out = outBytes.toString(StandardCharsets.UTF_8);
        err = errBytes.toString(StandardCharsets.UTF_8);
        return code;
    }

    Surroundings surroundings(ByteArrayOutputStream outBytes, ByteArrayOutputStream errBytes) {
        return new Surroundings(
                new ByteArrayInputStream(typed.getBytes(StandardCharsets.UTF_8)),
                new PrintStream(outBytes, true, StandardCharsets.UTF_8),
                new PrintStream(errBytes, true, StandardCharsets.UTF_8),
                typing,
                terminal,
                terminal,
                width,
                environment,
                clock,
                home,
                sleeper);
    }

    void logIn(StubService stub) {
        typed = StubService.TOKEN + "\n";
        if (type("log-in", stub.address()) != 0) {
            throw new IllegalStateException(err);
        }
        typed = "";
    }

    /** Lines of the results. */
    List<String> lines() {
        return out.lines().toList();
    }

    Path write(String name, String... lines) {
        try {
            return Files.writeString(home.resolve(name), String.join("\n", lines) + "\n");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
