package panelbook.wire;

/** A day of the week, as ISO 8601 orders them. */
public enum Weekday {
    /** Monday. */
    MONDAY,
    /** Tuesday. */
    TUESDAY,
    /** Wednesday. */
    WEDNESDAY,
    /** Thursday. */
    THURSDAY,
    /** Friday. */
    FRIDAY,
    /** Saturday. */
    SATURDAY,
    /** Sunday. */
    SUNDAY;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
