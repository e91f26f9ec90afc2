package panelbook.colorimetry.uncertainty;

import panelbook.colorimetry.Require;

/**
 * One measured quantity in a sum.
 *
 * @param coefficient c, what the quantity is multiplied by
 * @param standardUncertainty u of the quantity, full: systematic and random together, not negative
 * @param repeatability s, the random part alone, not negative and not above u
 * @param source key of the systematic part: equal keys share one unknown error
 */
public record Term(double coefficient, double standardUncertainty, double repeatability, String source) {
    public Term {
        Require.finite("coefficient", coefficient);
        requireRepeatabilityWithin("", standardUncertainty, repeatability);
    }

    /** The systematic part: u2 = systematic2 + s2. */
    double systematic() {
        return systematic(standardUncertainty, repeatability);
    }

    static double systematic(double full, double repeatability) {
        return Math.sqrt(Math.max(full * full - repeatability * repeatability, 0));
    }

    static void requireRepeatabilityWithin(String what, double full, double repeatability) {
        Require.notNegative(what + "standard uncertainty", full);
        Require.notNegative(what + "repeatability", repeatability);
        if (repeatability > full) {
            throw new IllegalArgumentException(what + "repeatability " + repeatability
                    + " must not exceed the full standard uncertainty " + full + ", which includes it");
        }
    }
}
