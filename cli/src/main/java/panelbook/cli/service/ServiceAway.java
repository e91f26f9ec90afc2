package panelbook.cli.service;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;

/** The service cannot be reached, or is in no state to answer. Nobody knows whether it did what was asked; ask again. */
public final class ServiceAway extends Failure {

    private static final long serialVersionUID = 1L;

    ServiceAway(String message, @Nullable Throwable cause) {
        super(ExitCode.FAILED, message, List.of(), cause);
    }
}
