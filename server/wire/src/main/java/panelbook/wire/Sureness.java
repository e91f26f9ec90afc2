package panelbook.wire;

/** How sure the date of a due preset is. */
public enum Sureness {
    /** It is so already. */
    FACT,
    /** By the calendar. */
    CALENDAR,
    /** By the panel hours a day that the display ran lately. */
    OWN_USE,
    /** Not before this with 90 %. */
    EARLIEST_AT_90,
    /** As likely before as after. */
    EXPECTED;

    private final String word = Word.of(this);

    /** The word used on the wire and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
