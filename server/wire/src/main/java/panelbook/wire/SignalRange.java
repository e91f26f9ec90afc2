package panelbook.wire;

/** Signal range of a target. */
public enum SignalRange {
    /** All codes carry signal. */
    FULL,
    /** 16 to 235 of 256 and its multiples, ITU-R BT.2100 table 9. */
    NARROW;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
