package panelbook.wire;

/** Where in the picture something was seen. */
public enum Place {
    /** Everywhere. */
    WHOLE_IMAGE,
    /** On skin alone. */
    SKIN,
    /** In the dark part. */
    SHADOWS,
    /** In the middle. */
    MIDTONES,
    /** In the bright part. */
    HIGHLIGHTS,
    /** On one colour alone. */
    ONE_COLOUR;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
