package panelbook.wire;

/** Where a limit comes from. */
public enum Basis {
    /** Read in the document named. */
    TEXT("text"),
    /** Read in somebody else's summary of the document named. */
    SECONDARY("secondary"),
    /** Remembered, not seen; never to be shown as the document's figure. */
    MEMORY("memory"),
    /** The house's own choice. */
    HOUSE_POLICY("house policy");

    private final String word;

    Basis(String word) {
        this.word = word;
    }

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
