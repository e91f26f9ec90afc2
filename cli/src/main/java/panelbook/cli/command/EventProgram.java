package panelbook.cli.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import panelbook.cli.json.Json;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Surroundings;
import panelbook.wire.AlertEvent;

/** A program of the user's that is run once for each event, without a shell. */
final class EventProgram {

    private static final int TRIES = 5;
    private static final long FIRST_PAUSE_MILLIS = 1000;

    private final Surroundings at;
    private final Consumer<String> notices;
    private final List<String> command;

    private EventProgram(Surroundings at, Consumer<String> notices, List<String> command) {
        this.at = at;
        this.notices = notices;
        this.command = command;
    }

    /** {@code notices} hears of each failure; a program with a slash in its name is looked for from where the user is. */
    static EventProgram of(Surroundings at, Consumer<String> notices, String program, List<String> arguments) {
        var command = new ArrayList<String>();
        command.add(program.indexOf('/') < 0 ? program : at.file(program).toString());
        command.addAll(arguments);
        return new EventProgram(at, notices, command);
    }

    /** Runs the program until it takes the event; fails when it did not in so many tries, or cannot be started. */
    void hand(AlertEvent event) {
        var pause = FIRST_PAUSE_MILLIS;
        for (var attempt = 1; ; attempt++) {
            var code = run(event);
            if (code == 0) {
                return;
            }
            var what = command.get(0) + " ended with " + code + " on event " + event.sequence();
            if (attempt == TRIES) {
                throw Failure.failed(what + ", " + TRIES
                        + " times. Put it right and start the same command again: it goes on with this event.");
            }
            notices.accept(what + ". Trying again in " + pause / 1000 + " s.");
            sleep(pause);
            pause *= 2;
        }
    }

    private int run(AlertEvent event) {
        try {
            var process = builder(event).start();
            write(process, event);
            return process.waitFor();
        } catch (IOException e) {
            throw Failure.failed(command.get(0) + " could not be started: " + e.getMessage(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw Failure.failed("Following was interrupted.", e);
        }
    }

    private ProcessBuilder builder(AlertEvent event) {
        var builder = new ProcessBuilder(command)
                .directory(at.folder().toFile())
                .redirectOutput(ProcessBuilder.Redirect.INHERIT)
                .redirectError(ProcessBuilder.Redirect.INHERIT);
        var environment = builder.environment();
        environment.put("PANELBOOK_SEQUENCE", Long.toString(event.sequence()));
        environment.put("PANELBOOK_EVENT", event.kind().toString());
        environment.put("PANELBOOK_ALERT", event.alertId().toString());
        environment.put("PANELBOOK_CAUSE", event.cause().toString());
        environment.put("PANELBOOK_SUBJECT", event.subject());
        environment.put("PANELBOOK_HEADLINE", event.headline());
        return builder;
    }

    // a program need not read what it is given: how it ends is all that counts
    private static void write(Process process, AlertEvent event) {
        try (var in = process.getOutputStream()) {
            in.write((Json.text(event) + "\n").getBytes(StandardCharsets.UTF_8));
        } catch (IOException closed) {
            // see above
        }
    }

    private void sleep(long millis) {
        try {
            at.sleeper().sleep(millis);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw Failure.failed("Following was interrupted.", e);
        }
    }
}
