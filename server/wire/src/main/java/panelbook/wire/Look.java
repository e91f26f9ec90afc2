package panelbook.wire;

/** How the follower looks beside the hero. */
public enum Look {
    /** A cast towards red. */
    REDDER,
    /** A cast towards green. */
    GREENER,
    /** A cast towards blue. */
    BLUER,
    /** A cast towards cyan. */
    MORE_CYAN,
    /** A cast towards magenta. */
    MORE_MAGENTA,
    /** A cast towards yellow. */
    YELLOWER,
    /** More light. */
    LIGHTER,
    /** Less light. */
    DARKER,
    /** Stronger colours. */
    MORE_SATURATED,
    /** Weaker colours. */
    LESS_SATURATED,
    /** Steeper tones. */
    MORE_CONTRAST,
    /** Flatter tones. */
    LESS_CONTRAST,
    /** Detail in the dark is lost. */
    CRUSHED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
