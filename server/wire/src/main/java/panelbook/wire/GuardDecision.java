package panelbook.wire;

/** What a guard says of a trim. */
public enum GuardDecision {
    /** The readings show no harm. */
    PASSED,
    /** The readings cannot tell: measure again. */
    UNDECIDED,
    /** The readings show that the trim must not stand. */
    REFUSED,
    /** Refused, and a person lets it stand with a reason. */
    OVERRIDDEN;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
