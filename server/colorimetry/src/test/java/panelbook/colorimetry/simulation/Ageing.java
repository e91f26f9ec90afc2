package panelbook.colorimetry.simulation;

/**
 * Loss of light over panel hours: L / L0 = exp(-(t / tau)^beta). Source: Féry et al., Appl. Phys. Lett. 87 (2005)
 * 213502.
 *
 * @param tauHours tau, h, greater than zero; infinity for a source that does not age
 * @param beta no unit, greater than zero
 */
public record Ageing(double tauHours, double beta) {
    public static final Ageing NONE = new Ageing(Double.POSITIVE_INFINITY, 1);

    /**
     * What is left.
     *
     * @param hours t, h of panel use, not negative
     * @return share of the new panel's light, 0 to 1
     */
    public double remaining(double hours) {
        return Math.exp(-Math.pow(hours / tauHours, beta));
    }
}
