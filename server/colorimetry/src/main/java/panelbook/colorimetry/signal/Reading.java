package panelbook.colorimetry.signal;

import panelbook.colorimetry.Require;
import panelbook.colorimetry.XYZ;

/**
 * One measured patch.
 *
 * @param patch what was sent
 * @param xyz what was measured, absolute, cd/m2; Y not negative (X and Z may fall just below zero through a matrix
 *     correction near black)
 */
public record Reading(Patch patch, XYZ xyz) {
    public Reading {
        Require.notNegative("measured Y of patch " + patch + " in cd/m2", xyz.y());
    }

    /**
     * The measured luminance.
     *
     * @return Y, cd/m2
     */
    public double luminance() {
        return xyz.y();
    }
}
