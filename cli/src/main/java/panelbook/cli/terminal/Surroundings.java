package panelbook.cli.terminal;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Everything that a command needs from outside of itself.
 *
 * @param in standard input
 * @param out where results go
 * @param err where messages, progress and errors go
 * @param personReadsIn whether standard input is a terminal
 * @param personReadsOut whether {@code out} is a terminal
 * @param personReadsErr whether {@code err} is a terminal
 * @param width columns of the terminal; 0 when unknown
 * @param environment environment variables
 * @param clock tells the time
 * @param folder where relative file names start
 * @param sleeper waits between attempts
 */
public record Surroundings(
        InputStream in,
        PrintStream out,
        PrintStream err,
        boolean personReadsIn,
        boolean personReadsOut,
        boolean personReadsErr,
        int width,
        Map<String, String> environment,
        Clock clock,
        Path folder,
        Sleeper sleeper) {

    /** Waits. */
    @FunctionalInterface
    public interface Sleeper {
        /** Waits {@code millis} milliseconds. */
        void sleep(long millis) throws InterruptedException;
    }

    /**
     * The process's own. The launcher tells by the system properties {@code panelbook.terminal} (digits of the streams
     * that are terminals, of 0, 1 and 2) and {@code panelbook.width}; Java alone cannot tell one stream from another.
     */
    public static Surroundings ofProcess() {
        var terminals = System.getProperty("panelbook.terminal");
        if (terminals == null) {
            terminals = System.console() == null ? "" : "012";
        }
        return new Surroundings(
                System.in,
                stream(FileDescriptor.out),
                stream(FileDescriptor.err),
                terminals.contains("0"),
                terminals.contains("1"),
                terminals.contains("2"),
                Integer.getInteger("panelbook.width", 0),
                System.getenv(),
                Clock.systemUTC(),
                Path.of("").toAbsolutePath(),
                new Sleep());
    }

    // a class rather than a reference to the method: linking one takes milliseconds of every start
    private static final class Sleep implements Sleeper {
        @Override
        public void sleep(long millis) throws InterruptedException {
            Thread.sleep(millis);
        }
    }

    // UTF-8 always: u′v′ and names in any script must survive a POSIX locale
    private static PrintStream stream(FileDescriptor descriptor) {
        return new PrintStream(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
    }

    /** An environment variable; null when it is unset or empty. */
    public @Nullable String variable(String name) {
        var value = environment.get(name);
        return value == null || value.isEmpty() ? null : value;
    }

    /** The path of a file that the user named. */
    public Path file(String name) {
        return folder.resolve(name);
    }
}
