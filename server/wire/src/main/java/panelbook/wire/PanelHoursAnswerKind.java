package panelbook.wire;

/** What a value of a panel-hours counter turned out to be. */
public enum PanelHoursAnswerKind {
    /** Another panel was fitted; it counts from this value on. */
    PANEL_REPLACED,
    /** The same panel, whose counter was set anew. */
    COUNTER_RESET,
    /** It was mistyped; it counts no longer. */
    TYPING_ERROR,
    /** The counter did say so. */
    RIGHT;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
