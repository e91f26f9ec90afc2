package panelbook.wire;

/** What an alert is about; at most one is open per cause and subject. */
public enum AlertCause {
    /** The picture of a preset moved: against its baseline, or against its hero with itself as the mover. On a hero it names the followers. */
    MOVED,
    /** An as-left run, or a run without baseline, does not meet its target. */
    OFF_TARGET,
    /** The baseline is older than its tolerance set allows. */
    RECALIBRATION_DUE,
    /** Runs were taken with an instrument whose certificate had expired. */
    CERTIFICATE_EXPIRED,
    /** A new baseline since sign-off; lists the matches it puts in question. */
    MATCH_IN_QUESTION,
    /**
     * A figure stepped between two runs, apart from ageing. On a preset: somebody was in its menu, or a part failed. On a
     * room: the same step on all its displays, so the feed or the meter. On an instrument: the same step on every display
     * that it measured.
     */
    STEPPED;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
