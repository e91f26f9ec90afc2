package panelbook.wire;

/** What happened to an alert. */
public enum AlertEventKind {
    OPENED,
    /** It lasts; the figures are new. */
    UPDATED,
    ACKNOWLEDGED,
    CLOSED,
    /** It came back; its history goes on. */
    REOPENED,
    /** An alert on its cause explains it now: nobody is woken for it. */
    HELD_BACK,
    /** The alert that held it back is closed, and it lasts: it speaks for itself. */
    RELEASED,
    /** It lasts, and people are told again. */
    REMINDED,
    /** Nobody acknowledged it in time. */
    ESCALATED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
