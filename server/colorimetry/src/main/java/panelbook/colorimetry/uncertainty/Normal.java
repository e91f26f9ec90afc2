package panelbook.colorimetry.uncertainty;

/** The standard normal distribution. */
public final class Normal {
    private static final double SQRT_PI = Math.sqrt(Math.PI);

    /** Where the series hands over to the continued fraction: further out, 1 - erf would lose digits of the tail. */
    private static final double SERIES_BELOW = 1.5;

    private Normal() {}

    /**
     * The probability of a value at or below z.
     *
     * @param z in standard deviations; infinities are allowed
     * @return Phi(z) = erfc(-z / sqrt 2) / 2, 0 to 1; relative error below 1e-12 down to z = -37, where it leaves the
     *     range of a double
     * @throws IllegalArgumentException when z is not a number
     */
    public static double probabilityBelow(double z) {
        if (Double.isNaN(z)) {
            throw new IllegalArgumentException("z must be a number");
        }
        return erfc(-z / Math.sqrt(2)) / 2;
    }

    /**
     * The value that a probability lies below: the inverse of {@link #probabilityBelow}.
     *
     * @param probability p, between 0 and 1, both excluded
     * @return z with Phi(z) = p. Source: start by Abramowitz and Stegun 26.2.23 (error below 4.5e-4), then steps of
     *     Halley's method. Example: 0.95 gives 1.6449
     * @throws IllegalArgumentException when p is not between 0 and 1
     */
    public static double quantile(double probability) {
        if (!(probability > 0 && probability < 1)) {
            throw new IllegalArgumentException("probability must lie between 0 and 1, but is " + probability);
        }
        double tail = Math.min(probability, 1 - probability);
        double z = -upperTailStart(tail);
        for (int step = 0; step < 3; step++) {
            double error = (probabilityBelow(z) - tail) / density(z);
            z -= error / (1 + z * error / 2);
        }
        return probability < 0.5 ? z : -z;
    }

    private static double density(double z) {
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    /** Abramowitz and Stegun (1964), 26.2.23. */
    private static double upperTailStart(double tail) {
        double t = Math.sqrt(-2 * Math.log(tail));
        return t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    }

    private static double erfc(double x) {
        if (x < 0) {
            return 2 - erfc(-x);
        }
        return x < SERIES_BELOW ? 1 - erfSeries(x) : erfcFraction(x);
    }

    /** Abramowitz and Stegun (1964), 7.1.6: terms of one sign, so nothing cancels. */
    private static double erfSeries(double x) {
        double term = x;
        double sum = x;
        for (int n = 1; term > sum * 1e-17; n++) {
            term *= 2 * x * x / (2 * n + 1);
            sum += term;
        }
        return 2 / SQRT_PI * Math.exp(-x * x) * sum;
    }

    /** Abramowitz and Stegun (1964), 7.1.14, from the far end. */
    private static double erfcFraction(double x) {
        if (x > 27.3) {
            return 0;
        }
        double tail = x;
        for (int n = 120; n >= 1; n--) {
            tail = x + n / 2.0 / tail;
        }
        return Math.exp(-x * x) / (SQRT_PI * tail);
    }
}
