package panelbook.wire;

/** Where the notification of an event of an alert stands. */
public enum NotificationState {
    /** To be sent. */
    WAITING,
    /** Kept until a quiet period ends. */
    QUIET,
    /** In a message. */
    IN_MESSAGE,
    /** Not to be sent any more. */
    LEFT_OUT;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
