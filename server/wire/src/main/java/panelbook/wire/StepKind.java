package panelbook.wire;

/** What a step of a match says. */
public enum StepKind {
    /** How the follower looks beside the hero. */
    OBSERVATION,
    /** A control was turned. */
    TRIM,
    /** What the operator made of the last trim. */
    VERDICT,
    /** A run was taken as the controls stand. */
    READING,
    /** The controls were set back to how they stood after an earlier step. */
    RETURN,
    /** A person lets a trim stand that a guard refused. */
    OVERRIDE,
    /** Anything else worth keeping. */
    NOTE;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
