package panelbook.wire;

/** What takes time in a visit. */
public enum Work {
    /** The display warms up; nobody need be there. */
    WARM_UP,
    /** A preset is measured, recalibrated and measured again. */
    RECALIBRATION,
    /** A follower is matched to its hero. */
    MATCH;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
