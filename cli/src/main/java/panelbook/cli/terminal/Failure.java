package panelbook.cli.terminal;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A command cannot do its work. Says what is wrong and what to do next, in one line each; becomes a message and an exit
 * code in one place.
 */
public class Failure extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final int exitCode;
    private final transient List<String> places;

    /** A failure with code {@code exitCode}; {@code places} are further lines, each naming a place at fault. */
    protected Failure(int exitCode, String message, List<String> places, @Nullable Throwable cause) {
        super(message, cause);
        this.exitCode = exitCode;
        this.places = List.copyOf(places);
    }

    /** The work failed. */
    public static Failure failed(String message) {
        return new Failure(ExitCode.FAILED, message, List.of(), null);
    }

    /** The work failed because of {@code cause}. */
    public static Failure failed(String message, Throwable cause) {
        return new Failure(ExitCode.FAILED, message, List.of(), cause);
    }

    /** The work failed at several places, a line each. */
    public static Failure failedAt(String message, List<String> places) {
        return new Failure(ExitCode.FAILED, message, places, null);
    }

    /** The command was typed wrongly. */
    public static Failure usage(String message) {
        return new Failure(ExitCode.USAGE, message, List.of(), null);
    }

    /** Code to exit with. */
    public int exitCode() {
        return exitCode;
    }

    /** Further lines, each naming a place at fault. */
    public List<String> places() {
        return places;
    }

    /** What is wrong and what to do; never null. */
    public String text() {
        var message = getMessage();
        return message == null ? getClass().getSimpleName() : message;
    }
}
