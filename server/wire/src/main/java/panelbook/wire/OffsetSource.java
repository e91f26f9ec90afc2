package panelbook.wire;

/** Where the offset comes from that a suggestion aims at. */
public enum OffsetSource {
    /** What this operator signed off for this pair. */
    AGREED,
    /** What this operator usually signs off between such panel technologies. */
    USUAL,
    /** Nothing is known: the follower is to measure like the hero. */
    NONE;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
