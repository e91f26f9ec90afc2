package panelbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;

/** Where the lines of a session come from: a person, or a file or another program. */
interface Lines extends Asking, AutoCloseable {

    /** The next line; null at the end. */
    @Nullable
    String next(String prompt);

    @Override
    void close();

    /** Lines of a stream; nobody is there to be asked, and no prompt is shown. */
    static Lines of(InputStream in) {
        var reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
        return new Lines() {
            @Override
            public @Nullable String next(String prompt) {
                try {
                    return reader.readLine();
                } catch (IOException e) {
                    throw Failure.failed("Standard input cannot be read: " + e.getMessage(), e);
                }
            }

            @Override
            public @Nullable String ask(String question) {
                return null;
            }

            @Override
            public void close() {
                // whoever opened the stream closes it
            }
        };
    }
}
