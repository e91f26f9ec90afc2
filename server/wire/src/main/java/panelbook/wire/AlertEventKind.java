package panelbook.wire;

/** What happened to an alert. */
public enum AlertEventKind {
    OPENED,
    /** It lasts; the figures are new. */
    UPDATED,
    ACKNOWLEDGED,
    CLOSED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
