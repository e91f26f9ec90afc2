package panelbook.colorimetry.signal;

import java.util.Optional;
import panelbook.colorimetry.Require;

/**
 * The code values of a signal: range and bit depth. Source: ITU-R BT.2100-2 (2018), Table 9, whose rule for 10 and 12
 * bits is used alike from 8 to 16.
 *
 * @param range full or narrow
 * @param bitDepth bits per channel, 8 to 16
 */
public record CodeValues(SignalRange range, int bitDepth) {
    public CodeValues {
        Require.within("bit depth", bitDepth, 8, 16);
    }

    /**
     * The code of black, signal 0.
     *
     * @return code value
     */
    public int black() {
        return range.black(bitDepth);
    }

    /**
     * The code of nominal peak white, signal 1. In narrow range there are codes above it.
     *
     * @return code value
     */
    public int white() {
        return range.white(bitDepth);
    }

    /**
     * The least code that is video.
     *
     * @return code value
     */
    public int least() {
        return range.least(bitDepth);
    }

    /**
     * The greatest code that is video.
     *
     * @return code value
     */
    public int greatest() {
        return range.greatest(bitDepth);
    }

    /**
     * Checks that a code is video in this range.
     *
     * @param name what the caller calls it
     * @param code code value
     * @return {@code code}
     * @throws IllegalArgumentException when it lies outside {@link #least} to {@link #greatest}
     */
    public int require(String name, int code) {
        if (code < least() || code > greatest()) {
            throw new IllegalArgumentException(name + " is code " + code + ", but " + this + " holds " + least()
                    + " to " + greatest() + "; check range and bit depth of the target");
        }
        return code;
    }

    /**
     * The signal that a code stands for.
     *
     * @param code code value, {@link #least} to {@link #greatest}
     * @return (code - black) / (white - black): 0 for black, 1 for white; below 0 and above 1 only in narrow range
     * @throws IllegalArgumentException when the code is no video in this range
     */
    public double toSignal(int code) {
        return (require("the value", code) - black()) / (double) steps();
    }

    /**
     * The nearest code of a signal, halves upwards.
     *
     * @param signal no unit, 0 for black, 1 for white
     * @return code value
     * @throws IllegalArgumentException when the signal is not finite or its code is no video in this range
     */
    public int toCode(double signal) {
        double code = Math.floor(Require.finite("signal", signal) * steps() + black() + 0.5);
        if (code < least() || code > greatest()) {
            throw new IllegalArgumentException("signal " + signal + " has no code in " + this + ", which holds signals "
                    + toSignal(least()) + " to " + toSignal(greatest()));
        }
        return (int) code;
    }

    /** How many codes lie between black and white. */
    int steps() {
        return white() - black();
    }

    /** The nearest patch here to one of other code values; empty when there is no video code for it. */
    Optional<Patch> nearest(Patch patch, CodeValues from) {
        int red = nearest(patch.red(), from);
        int green = nearest(patch.green(), from);
        int blue = nearest(patch.blue(), from);
        boolean isVideo =
                Math.min(red, Math.min(green, blue)) >= least() && Math.max(red, Math.max(green, blue)) <= greatest();
        return isVideo ? Optional.of(new Patch(red, green, blue)) : Optional.empty();
    }

    private int nearest(int code, CodeValues from) {
        return (int) Math.floor(from.toSignal(code) * steps() + black() + 0.5);
    }

    /**
     * In words.
     *
     * @return such as "10-bit narrow range"
     */
    @Override
    public String toString() {
        return bitDepth + "-bit " + (range == SignalRange.FULL ? "full" : "narrow") + " range";
    }
}
