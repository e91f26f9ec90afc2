package panelbook.wire;

/** What a message to a channel tells. */
public enum MessageKind {
    /** One event of one alert. */
    ALERT,
    /** Many events that came at once. */
    SUMMARY,
    /** What is still open at the end of a quiet period. */
    AFTER_QUIET,
    /** Nothing: somebody tried the channel. */
    TEST;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
