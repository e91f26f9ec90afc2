package panelbook.wire;

/** How the values of an axis are laid out along it. */
public enum AxisScale {
    /** Evenly. */
    LINEAR,
    /** By their logarithms; all are greater than zero. */
    LOGARITHMIC,
    /** Evenly; a value is a time in days since 1970-01-01T00:00Z. */
    TIME;

    private final String word = Word.of(this);

    /** The word used on the wire. */
    @Override
    public String toString() {
        return word;
    }
}
