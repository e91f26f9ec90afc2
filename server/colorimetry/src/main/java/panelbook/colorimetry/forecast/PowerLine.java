package panelbook.colorimetry.forecast;

/** All stretched exponentials of one beta: lines over t^beta, whose weighted least squares are known in full. */
record PowerLine(
        double beta,
        double unit,
        double meanX,
        double meanY,
        double slope,
        double weight,
        double spread,
        double squares) {
    /** Of normal noise, the mean of weighted squares over the mean weight, for the biweight at 4.685; computed. */
    private static final double WEIGHTED_VARIANCE = 0.828;

    static PowerLine through(double beta, double[] hours, double[] y, double[] weights) {
        double unit = hours[hours.length - 1];
        double weight = 0;
        double meanX = 0;
        double meanY = 0;
        double[] x = new double[hours.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.pow(hours[i] / unit, beta);
            weight += weights[i];
            meanX += weights[i] * x[i];
            meanY += weights[i] * y[i];
        }
        meanX /= weight;
        meanY /= weight;
        double spread = 0;
        double mixed = 0;
        for (int i = 0; i < x.length; i++) {
            spread += weights[i] * (x[i] - meanX) * (x[i] - meanX);
            mixed += weights[i] * (x[i] - meanX) * (y[i] - meanY);
        }
        double slope = mixed / spread;
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - meanY - slope * (x[i] - meanX);
            squares += weights[i] * residual * residual;
        }
        double floor = weight * StretchedExponential.NOISE_FLOOR * StretchedExponential.NOISE_FLOOR;
        return new PowerLine(beta, unit, meanX, meanY, slope, weight, spread, Math.max(squares, floor));
    }

    double at(double hours) {
        return meanY + slope * (x(hours) - meanX);
    }

    /** Half width of the band, t being the quantile of Student's distribution with {@link #weight} - 2 degrees. */
    double reach(double hours, double t) {
        double off = x(hours) - meanX;
        double variance = squares / (WEIGHTED_VARIANCE * (weight - 2));
        return t * Math.sqrt(variance * (1 / weight + off * off / spread));
    }

    /** ln of the chance of the readings, level and slope integrated out; up to a constant. */
    double logEvidence() {
        return -(weight - 2) / 2 * Math.log(squares) - Math.log(weight * spread) / 2;
    }

    /** Akaike's criterion corrected for few readings. Source: Hurvich and Tsai, Biometrika 76 (1989) 297. */
    static double aicc(double n, double squares, int k) {
        return n * Math.log(squares / n) + 2 * k + 2.0 * k * (k + 1) / (n - k - 1);
    }

    private double x(double hours) {
        return Math.pow(hours / unit, beta);
    }
}
