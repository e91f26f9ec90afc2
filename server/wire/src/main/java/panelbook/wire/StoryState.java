package panelbook.wire;

/** How far a match has come. */
public enum StoryState {
    /** Under way, also once its sign-off was withdrawn. */
    OPEN,
    /** Closed by the operator's acceptance. */
    SIGNED,
    /** Closed without. */
    GIVEN_UP;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
