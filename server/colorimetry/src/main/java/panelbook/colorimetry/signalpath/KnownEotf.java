package panelbook.colorimetry.signalpath;

import panelbook.colorimetry.signal.Eotf;

/** The transfer functions that a display may stand in by mistake. */
public enum KnownEotf {
    PQ,
    HLG,
    BT_1886,
    POWER_2_2,
    POWER_2_4,
    POWER_2_6;

    private static final double SAME_GAMMA = 0.01;

    /**
     * The function on a display.
     *
     * @param peakLuminance cd/m2, greater than zero; HLG takes its system gamma from it
     * @return the function
     */
    public Eotf at(double peakLuminance) {
        return switch (this) {
            case PQ -> new Eotf.Pq();
            case HLG -> Eotf.Hlg.forPeak(peakLuminance);
            case BT_1886 -> new Eotf.Bt1886();
            case POWER_2_2 -> new Eotf.Power(2.2);
            case POWER_2_4 -> new Eotf.Power(2.4);
            case POWER_2_6 -> new Eotf.Power(2.6);
        };
    }

    /**
     * Whether a target asks for this one.
     *
     * @param eotf of the target
     * @return true for the same function; a power law counts as the same within 0.01 of gamma, HLG with any system gamma
     */
    public boolean is(Eotf eotf) {
        if (this == HLG) {
            return eotf instanceof Eotf.Hlg;
        }
        if (eotf instanceof Eotf.Power power && at(1) instanceof Eotf.Power known) {
            return Math.abs(power.gamma() - known.gamma()) < SAME_GAMMA;
        }
        return at(1).equals(eotf);
    }
}
