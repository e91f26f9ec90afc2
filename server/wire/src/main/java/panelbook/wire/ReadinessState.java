package panelbook.wire;

/** Readiness of a room, from best to worst. */
public enum ReadinessState {
    /** May be booked. */
    READY,
    /** May be booked; read the reasons first. */
    READY_WITH_REMARKS,
    /** May not be booked. */
    NOT_READY;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
