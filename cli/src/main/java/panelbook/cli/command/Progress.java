package panelbook.cli.command;

import panelbook.cli.terminal.Surroundings;

/** Progress of a long upload, on one line of the terminal that is wiped at its end. Silent in a pipe and on short ones. */
final class Progress {

    private static final long SHORT_BYTES = 200_000;
    private static final long STEP_BYTES = 500_000;

    private final Surroundings at;
    private final String label;
    private long shown;

    Progress(Surroundings at, String file, int number, int count) {
        this.at = at;
        this.label = (count > 1 ? number + " of " + count + ": " : "") + file;
    }

    /** So many bytes have gone out. */
    void sent(long bytes) {
        if (at.personReadsErr() && bytes > SHORT_BYTES && bytes - shown >= STEP_BYTES) {
            shown = bytes;
            at.err().print("\r" + text(bytes));
            at.err().flush();
        }
    }

    /** Wipes the line. */
    void clear() {
        if (shown > 0) {
            at.err().print("\r" + " ".repeat(text(shown).length()) + "\r");
            at.err().flush();
            shown = 0;
        }
    }

    private String text(long bytes) {
        return label + ", sent " + bytes / 100_000 / 10.0 + " MB";
    }
}
