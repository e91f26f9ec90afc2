package panelbook.colorimetry.uncertainty;

/**
 * The limits of a tolerance; a value on a limit is within. Infinity stands for no limit on that side.
 *
 * @param lower least value allowed, or negative infinity
 * @param upper greatest value allowed, or positive infinity
 */
public record Limits(double lower, double upper) {
    public Limits {
        if (!(lower <= upper) || lower == Double.POSITIVE_INFINITY || upper == Double.NEGATIVE_INFINITY) {
            throw new IllegalArgumentException("limits must run from low to high, but are " + lower + " and " + upper);
        }
        if (Double.isInfinite(lower) && Double.isInfinite(upper)) {
            throw new IllegalArgumentException("a tolerance needs at least one limit");
        }
    }

    /**
     * At most this much.
     *
     * @param limit greatest value allowed
     * @return one-sided limits
     */
    public static Limits atMost(double limit) {
        return new Limits(Double.NEGATIVE_INFINITY, limit);
    }

    /**
     * At least this much.
     *
     * @param limit least value allowed
     * @return one-sided limits
     */
    public static Limits atLeast(double limit) {
        return new Limits(limit, Double.POSITIVE_INFINITY);
    }

    /**
     * From zero by at most this much either way.
     *
     * @param limit greatest magnitude allowed, not negative
     * @return two-sided limits
     */
    public static Limits within(double limit) {
        return new Limits(-limit, limit);
    }

    boolean hold(double value) {
        return lower <= value && value <= upper;
    }
}
