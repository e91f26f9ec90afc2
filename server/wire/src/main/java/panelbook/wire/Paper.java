package panelbook.wire;

/** What a drawing stands on. */
public enum Paper {
    /** A dark ground for rooms in which pictures are graded. */
    DARK,
    /** White, for print. */
    WHITE;

    private final String word = Word.of(this);

    /** The word used in addresses and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
