package panelbook.colorimetry.uncertainty;

import panelbook.colorimetry.Require;

/**
 * A figure with its standard uncertainty.
 *
 * @param value in the unit that the holder states
 * @param standardUncertainty u (k = 1), same unit, not negative
 */
public record Estimate(double value, double standardUncertainty) {
    public Estimate {
        Require.finite("value", value);
        Require.notNegative("standard uncertainty", standardUncertainty);
    }

    /**
     * The same in another unit.
     *
     * @param factor what both are multiplied by; the uncertainty stays positive
     * @return the figure in the other unit
     */
    public Estimate times(double factor) {
        return new Estimate(value * factor, standardUncertainty * Math.abs(factor));
    }

    /**
     * Whether the figure differs from zero by more than its uncertainty explains.
     *
     * @param coverageFactor k
     * @return true when |value| is greater than k u
     */
    public boolean exceeds(double coverageFactor) {
        return Math.abs(value) > coverageFactor * standardUncertainty;
    }
}
