package panelbook.wire;

/** How a channel tells people of alerts. */
public enum ChannelKind {
    /** Mail to addresses. */
    EMAIL,
    /** A signed POST to an address of a program. */
    WEBHOOK;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
