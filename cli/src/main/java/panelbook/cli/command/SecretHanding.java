package panelbook.cli.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.OwnFiles;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Printer;
import panelbook.cli.terminal.Surroundings;

/** Hands a secret that the service shows this once to whoever asked for it. */
record SecretHanding(Surroundings at, Printer printer) {

    /**
     * Writes the secret to a file that only its owner may read, or to standard output when there is none; as JSON the whole
     * answer.
     */
    <T extends Record> void hand(Class<T> type, T answer, String secret, @Nullable String file) {
        if (file != null) {
            write(secret, file);
        } else if (printer.isJson()) {
            printer.one(type, answer, List.of());
        } else {
            printer.line(secret);
        }
    }

    private void write(String secret, String name) {
        try {
            OwnFiles.write(
                    at.file(name).toAbsolutePath(), out -> out.write((secret + "\n").getBytes(StandardCharsets.UTF_8)));
        } catch (IOException e) {
            // the secret exists only here: better on the terminal than lost
            printer.line(secret);
            throw Failure.failed(
                    "The secret could not be written to " + name + " (" + e.getMessage() + ") and was printed instead.",
                    e);
        }
    }
}
