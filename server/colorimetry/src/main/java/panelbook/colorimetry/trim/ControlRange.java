package panelbook.colorimetry.trim;

import panelbook.colorimetry.Require;

/**
 * How far a control may be turned.
 *
 * @param control which
 * @param kind what it acts on
 * @param setting where it stands, in clicks from its calibrated setting
 * @param least lowest setting there is, in clicks from the calibrated one
 * @param most highest setting there is, likewise
 */
public record ControlRange(Control control, Kind kind, int setting, int least, int most) {
    /** What a gain may be raised by above its calibrated setting before a channel clips. Common practice, no published source. */
    public static final int MOST_GAIN_CLICKS = 1;

    /** Kinds of control, as far as guards differ. */
    public enum Kind {
        GAIN,
        BIAS,
        BLACK_LEVEL,
        OTHER
    }

    public ControlRange {
        Require.within("setting of " + control + " in clicks", setting, least, most);
    }

    /**
     * The lowest change.
     *
     * @return clicks, zero or below
     */
    public int leastChange() {
        return least - setting;
    }

    /**
     * The highest change.
     *
     * @return clicks, zero or above; a gain ends {@link #MOST_GAIN_CLICKS} above its calibrated setting, or where it
     *     stands if that is higher
     */
    public int mostChange() {
        return isHeldByGain() ? Math.max(MOST_GAIN_CLICKS, setting) - setting : most - setting;
    }

    boolean isHeldByGain() {
        return kind == Kind.GAIN && most > Math.max(MOST_GAIN_CLICKS, setting);
    }
}
