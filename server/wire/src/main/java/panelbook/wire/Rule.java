package panelbook.wire;

/** Rules a preset is judged by. */
public enum Rule {
    /** A run against its target. */
    VERIFICATION,
    /** Now against the baseline. */
    OWN_DRIFT,
    /** Figures that stepped between two runs rather than aged. */
    STEP,
    /** The residual: follower − hero now, less the agreed offset. */
    HERO_DRIFT,
    /** Age of the baseline in days and panel hours. */
    RECALIBRATION,
    /** The instrument's certificate on the day of the run. */
    CERTIFICATE,
    /** Whether the match still rests on the baselines in force. */
    AGREEMENT;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
