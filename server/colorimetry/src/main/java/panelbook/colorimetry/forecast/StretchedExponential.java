package panelbook.colorimetry.forecast;

import java.util.Arrays;

/**
 * The stretched exponential L / L0 = exp(-(t / tau)^beta), t being panel hours as the counter shows them. Source: Fery et
 * al., Appl. Phys. Lett. 87 (2005) 213502.
 *
 * @param logInitial ln L0, L0 in the unit of the series
 * @param tauHours tau, h: until 1/e is left
 * @param beta no unit; below 1 a panel ages fastest when new
 */
public record StretchedExponential(double logInitial, double tauHours, double beta) {
    /** Fewer readings do not tell a curve from a line; house rule. */
    static final int LEAST_READINGS = 8;

    /** Of what was found on panels, 0.5 to 0.9 (from memory), with room about it. */
    static final double LEAST_BETA = 0.3;

    /** What a luminance is good for at best, in ln: keeps readings that lie on the curve from weights of nothing. */
    static final double NOISE_FLOOR = 1e-6;

    /** A fit with the hours in units of the last one, so that its figures are of like size. */
    record Fitted(StretchedExponential curve, CurveFit fit) {
        boolean slowsDown() {
            return curve.beta >= LEAST_BETA && curve.beta < 1 && fit.parameters()[1] > 0;
        }
    }

    /** By robust weighted least squares, from the line as a start. */
    static Fitted fit(double[] hours, double[] logLuminances, TheilSen line) {
        double unit = hours[hours.length - 1];
        double[] t = Arrays.stream(hours).map(h -> h / unit).toArray();
        double[] start = {line.intercept(), Math.max(-line.slope() * unit, 1e-4), 1};
        CurveFit fit = CurveFit.robust(p -> values(p, t), start, logLuminances, NOISE_FLOOR);
        double[] p = fit.parameters();
        return new Fitted(new StretchedExponential(p[0], unit * Math.pow(p[1], -1 / p[2]), p[2]), fit);
    }

    private static double[] values(double[] p, double[] t) {
        double[] values = new double[t.length];
        for (int i = 0; i < t.length; i++) {
            values[i] = p[0] - p[1] * Math.pow(t[i], p[2]);
        }
        return values;
    }

    /**
     * The curve.
     *
     * @param panelHours t, h, not negative
     * @return ln L
     */
    public double at(double panelHours) {
        return logInitial - Math.pow(panelHours / tauHours, beta);
    }
}
