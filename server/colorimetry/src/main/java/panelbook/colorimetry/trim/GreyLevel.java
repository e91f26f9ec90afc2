package panelbook.colorimetry.trim;

import panelbook.colorimetry.Require;

/**
 * A grey of the signal, in whole percent, so that runs of different bit depths meet.
 *
 * @param percent 0 for black, 100 for white
 */
public record GreyLevel(int percent) implements Comparable<GreyLevel> {
    public static final GreyLevel BLACK = new GreyLevel(0);
    public static final GreyLevel WHITE = new GreyLevel(100);

    public GreyLevel {
        Require.within("grey level in percent", percent, 0, 100);
    }

    /**
     * The nearest level of a signal.
     *
     * @param signal 0 for black, 1 for white
     * @return in whole percent
     * @throws IllegalArgumentException when the signal lies below black or above white by half a percent or more
     */
    public static GreyLevel of(double signal) {
        return new GreyLevel((int) Math.floor(100 * Require.finite("signal", signal) + 0.5));
    }

    @Override
    public int compareTo(GreyLevel other) {
        return Integer.compare(percent, other.percent);
    }
}
