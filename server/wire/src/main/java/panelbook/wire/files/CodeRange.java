package panelbook.wire.files;

import panelbook.wire.SignalRange;

/**
 * The code values that may be sent to a display.
 *
 * @param minInclusive least code value, 0 or more
 * @param maxInclusive greatest code value, 65535 or less
 * @param label what the range is, for messages, such as {@code 10-bit full range}
 */
public record CodeRange(int minInclusive, int maxInclusive, String label) {

    static final int MAX_CODE = 65535;

    public CodeRange {
        if (minInclusive < 0 || maxInclusive > MAX_CODE || minInclusive > maxInclusive) {
            throw new IllegalArgumentException(
                    "a code range of " + minInclusive + " to " + maxInclusive + " does not lie within 0 to 65535");
        }
    }

    /** All that 16 bits can hold: what is checked when the target is not known. */
    public static CodeRange any() {
        return new CodeRange(0, MAX_CODE, "16-bit code values");
    }

    /**
     * The full range of a bit depth: 0 to 2ⁿ − 1.
     *
     * @param bits bit depth n, 8 to 16
     */
    public static CodeRange full(int bits) {
        return new CodeRange(0, (1 << checked(bits)) - 1, bits + "-bit full range");
    }

    /**
     * The video data of a narrow-range signal, below black and above nominal peak included: 2ⁿ⁻⁸ to 255 × 2ⁿ⁻⁸ − 1, that
     * is 4 to 1019 at 10 bit. The codes outside are kept for timing. Source: ITU-R BT.2100-2 (2018), Table 9, for 10 and
     * 12 bit; ITU-R BT.709-6 (2015), item 5.7, for 8 bit; other depths by the same rule.
     *
     * @param bits bit depth n, 8 to 16
     */
    public static CodeRange narrow(int bits) {
        int step = 1 << (checked(bits) - 8);
        return new CodeRange(step, 255 * step - 1, bits + "-bit narrow range");
    }

    /** What a target allows: {@link #full} or {@link #narrow}. */
    public static CodeRange of(SignalRange range, int bits) {
        return range == SignalRange.FULL ? full(bits) : narrow(bits);
    }

    /** Whether a code value lies within. */
    public boolean contains(int code) {
        return code >= minInclusive && code <= maxInclusive;
    }

    private static int checked(int bits) {
        if (bits < 8 || bits > 16) {
            throw new IllegalArgumentException("a bit depth of " + bits + " is not one of 8 to 16");
        }
        return bits;
    }
}
