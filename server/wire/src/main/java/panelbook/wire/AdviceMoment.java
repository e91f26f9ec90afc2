package panelbook.wire;

/** When advice is given. */
public enum AdviceMoment {
    /** When a match is opened. */
    OPENING,
    /** When something was seen. */
    OBSERVATION,
    /** When a control is turned. */
    TRIM,
    /** When a gain stands above its calibrated setting. */
    GAIN_RAISED,
    /** After a verdict. */
    VERDICT,
    /** When follower and hero measure far apart. */
    BIG_DIFFERENCE,
    /** Before the operator accepts. */
    SIGN_OFF;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
