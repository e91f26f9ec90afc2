package panelbook.wire;

/** Why a plan has no visit to a room. */
public enum PlanObstacle {
    /** No calibrator calibrates all the panel technologies that the visit needs. */
    NO_SKILL,
    /** Nobody said how long it takes from where the calibrators with the skills are at home. */
    NO_TRAVEL_TIME,
    /** The hours in which the room is free and a calibrator works never meet. */
    NO_FREE_HOURS,
    /** Its work is too long for any stretch in which the room is free and a calibrator works. */
    TOO_LONG,
    /** Other rooms save more with the same days. */
    DAYS_ARE_FULL;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
