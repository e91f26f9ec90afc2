package panelbook.cli.command;

import org.jspecify.annotations.Nullable;

/** Asks the person at the terminal. */
interface Asking {

    /** Nobody is there to be asked. */
    Asking NOBODY = question -> null;

    /** The answer, empty when the person just went on; null when nobody is there to be asked. */
    @Nullable
    String ask(String question);
}
