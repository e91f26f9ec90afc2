package panelbook.wire;

/** Why the readings that a forecast rests on begin where they do. */
public enum SegmentStart {
    /** Nothing lies before. */
    FIRST,
    /** The panel was replaced. */
    PANEL_SWAP,
    /** The counter went back. */
    COUNTER_RESET,
    /** The counter ran faster than the clock and stayed there. */
    COUNTER_JUMP,
    /** A new baseline. */
    RECALIBRATION,
    /** A match was signed off, which left the display in another state. */
    SIGN_OFF,
    /** The figure stepped: it moved between two runs rather than aged. */
    STEP;

    private final String word = Word.of(this);

    /** The word used on the wire and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
