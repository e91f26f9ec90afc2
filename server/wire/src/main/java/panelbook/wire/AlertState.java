package panelbook.wire;

/** Where an alert stands. */
public enum AlertState {
    /** Nobody has said that they have seen it. */
    OPEN,
    /** Somebody has it in hand. */
    ACKNOWLEDGED,
    /** Gone, by a run that shows it or by a person with a reason. */
    CLOSED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
