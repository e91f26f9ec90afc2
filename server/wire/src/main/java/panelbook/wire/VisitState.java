package panelbook.wire;

/** How far a visit has come. */
public enum VisitState {
    /** A plan laid it; the next plan may move it. */
    PROPOSED,
    /** A person agreed: no plan moves it. */
    CONFIRMED,
    /** A person said so, or the as-left runs and sign-offs of its work came in. */
    DONE,
    /** It will not be made. */
    DROPPED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
