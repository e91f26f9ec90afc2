package panelbook.wire;

/** Whether a requirement is met. */
public enum Holds {
    /** It is. */
    YES,
    /** It is not. */
    NO,
    /** Nobody said, or nothing was measured. */
    UNKNOWN;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
