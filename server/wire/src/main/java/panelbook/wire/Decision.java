package panelbook.wire;

/** Outcome of a rule, JCGM 106:2012 with guard bands. */
public enum Decision {
    /** Inside the limit by more than the guard band. */
    WITHIN,
    /** Over or under, but inside the uncertainty: measure again. */
    UNDECIDED,
    /** Outside the limit by more than the guard band. */
    BEYOND;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
