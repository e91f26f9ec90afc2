package panelbook.wire;

/** Where the length of a piece of work comes from, the strongest first. */
public enum DurationSource {
    /** Somebody said it of the model. */
    MODEL,
    /** The median of past visits to displays of the model. */
    LEARNED,
    /** The figure of the house. */
    HOUSE,
    /** The figure that the book comes with: common practice, no published source. */
    COMMON_PRACTICE;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
