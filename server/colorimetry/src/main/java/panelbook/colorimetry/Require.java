package panelbook.colorimetry;

/** Checks of arguments for this module: each names the argument, shows the value and returns it. */
public final class Require {
    private Require() {}

    /**
     * Refuses NaN and infinities.
     *
     * @param name what the caller calls the argument, with its unit where it has one
     * @param value the value
     * @return {@code value}
     * @throws IllegalArgumentException when it is not finite
     */
    public static double finite(String name, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " must be a finite number, but is " + value);
        }
        return value;
    }

    /**
     * Refuses what is not finite or is below zero.
     *
     * @param name what the caller calls the argument, with its unit where it has one
     * @param value the value
     * @return {@code value}
     * @throws IllegalArgumentException when it is not finite, or negative
     */
    public static double notNegative(String name, double value) {
        if (finite(name, value) < 0) {
            throw new IllegalArgumentException(name + " must not be negative, but is " + value);
        }
        return value;
    }

    /**
     * Refuses what is not finite, zero or below zero.
     *
     * @param name what the caller calls the argument, with its unit where it has one
     * @param value the value
     * @return {@code value}
     * @throws IllegalArgumentException when it is not finite, zero or negative
     */
    public static double positive(String name, double value) {
        if (finite(name, value) <= 0) {
            throw new IllegalArgumentException(name + " must be greater than zero, but is " + value);
        }
        return value;
    }

    /**
     * Refuses a value outside a closed range.
     *
     * @param name what the caller calls the argument
     * @param value the value
     * @param minInclusive the least value allowed
     * @param maxInclusive the greatest value allowed
     * @return {@code value}
     * @throws IllegalArgumentException when it lies outside
     */
    public static int within(String name, int value, int minInclusive, int maxInclusive) {
        if (value < minInclusive || value > maxInclusive) {
            throw new IllegalArgumentException(
                    name + " must lie from " + minInclusive + " to " + maxInclusive + ", but is " + value);
        }
        return value;
    }
}
