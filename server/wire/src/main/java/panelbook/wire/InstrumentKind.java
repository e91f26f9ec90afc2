package panelbook.wire;

/** Kind of meter. */
public enum InstrumentKind {
    /** Filters before sensors. */
    COLORIMETER,
    /** Spectrum first, colour computed. */
    SPECTRORADIOMETER;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
