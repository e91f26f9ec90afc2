package panelbook.wire;

/** Why a suggestion does not come closer. */
public enum NotMore {
    /** The control ends here. */
    BOUND,
    /** A gain further above its calibrated setting would clip its channel. */
    GAIN_WOULD_CLIP,
    /** Black would rise beyond its tolerance. */
    FLOOR_WOULD_RISE,
    /** There are no half clicks. */
    WHOLE_CLICKS,
    /** What a click does is not known well: a reading after the next trim tells more. */
    EFFECT_UNSURE,
    /** The controls reach no closer in any setting. */
    OUT_OF_REACH;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
