package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;

/** Where a drawing goes that was asked for with --svg. */
final class DrawnFile {

    private static final String STANDARD_OUTPUT = "-";

    private DrawnFile() {}

    /**
     * Writes a drawing.
     *
     * @param file or - for standard output
     * @param what it is, for people
     */
    static int write(Action action, String file, String drawing, String what) {
        if (file.equals(STANDARD_OUTPUT)) {
            action.printer().line(drawing.stripTrailing());
            return ExitCode.DONE;
        }
        try {
            Files.writeString(action.at().file(file), drawing);
        } catch (IOException e) {
            throw Failure.failed(file + " cannot be written: " + FileReasons.of(e), e);
        }
        action.printer().say("Drew " + what + " into " + file + ".");
        return ExitCode.DONE;
    }
}
