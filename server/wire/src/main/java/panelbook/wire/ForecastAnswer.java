package panelbook.wire;

/** What a series of readings says about the crossing of a limit. */
public enum ForecastAnswer {
    /** The limit will be crossed, at the earliest or as expected, within what may be said. */
    CROSSES,
    /** The trend is beyond the limit already. */
    BEYOND_ALREADY,
    /** The limit holds with 90 % as far as anything may be said. */
    NOT_WITHIN_HORIZON,
    /** No movement towards the limit that can be told from none. */
    FLAT,
    /** Fewer readings than a forecast needs. */
    TOO_FEW_READINGS,
    /** Nothing to measure a drift from: no baseline, an unmeasured sign-off, or sign-offs for several operators. */
    NO_REFERENCE,
    /** The tolerance set has no limit for it. */
    NO_LIMIT;

    private final String word = Word.of(this);

    /** The word used on the wire and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
