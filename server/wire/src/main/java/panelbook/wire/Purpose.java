package panelbook.wire;

/** Why a run was taken. */
public enum Purpose {
    /** Before anything was changed. */
    AS_FOUND,
    /** After calibration; becomes the baseline when it verifies. */
    AS_LEFT,
    /** A look in between; changes nothing. */
    CHECK,
    /** Taken while matching by eye. */
    MATCH;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
