package panelbook.wire;

/** What the operator made of a trim. */
public enum OperatorVerdict {
    /** Closer to the hero than before it. */
    BETTER,
    /** Further from it. */
    WORSE,
    /** No difference to be seen. */
    SAME;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
