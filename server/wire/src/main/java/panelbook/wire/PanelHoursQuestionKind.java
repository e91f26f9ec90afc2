package panelbook.wire;

/** Why a value of a panel-hours counter is asked about. */
public enum PanelHoursQuestionKind {
    /** It is lower than the value before it. */
    WENT_BACK,
    /** It rose by more hours than had passed. */
    FASTER_THAN_THE_CLOCK,
    /** It does not go with the values before and after it, which go with each other. */
    CONTRADICTED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
