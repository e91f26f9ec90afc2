package panelbook.wire;

/** Why a preset is due. */
public enum DueReason {
    /** There is no baseline. */
    NEVER_CALIBRATED,
    /** An open alert says that it moved, or that it does not meet its target. */
    OUT_OF_TOLERANCE,
    /** The baseline reaches the age that the tolerance set allows. */
    RECALIBRATION_DAYS,
    /** The panel reaches the hours since the baseline that the tolerance set allows. */
    RECALIBRATION_PANEL_HOURS,
    /** Peak luminance is forecast to cross its limit. */
    LUMINANCE_FORECAST,
    /** White is forecast to cross its limit. */
    WHITE_FORECAST,
    /** The hero was recalibrated since the match. */
    HERO_RECALIBRATED,
    /** The match rests on what holds no longer, such as an earlier baseline of the follower. */
    MATCH_IN_QUESTION,
    /** The meter had no valid certificate on the day of the baseline. */
    CERTIFICATE;

    private final String word = Word.of(this);

    /** The word used on the wire and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
