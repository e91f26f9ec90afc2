package panelbook.wire.files;

/**
 * What a reader checks beyond the file itself, and where it stops.
 *
 * @param codeRange code values that may occur; {@link CodeRange#any()} when the target is not known
 * @param maxReadings readings that a run may hold, 1 to {@link RunFile#MAX_READINGS}; reading stops at the first above
 * @param maxProblems problems that are listed, 1 or more; the rest are counted only
 * @param maxBytes bytes that are read before the reader gives up
 */
public record ReadOptions(CodeRange codeRange, int maxReadings, int maxProblems, long maxBytes) {

    public ReadOptions {
        within("maxReadings", maxReadings, RunFile.MAX_READINGS);
        within("maxProblems", maxProblems, 10_000);
        within("maxBytes", maxBytes, Long.MAX_VALUE);
    }

    /** Any 16-bit code value, 300,000 readings, the first 100 problems, 256 MiB. */
    public static ReadOptions defaults() {
        return new ReadOptions(CodeRange.any(), RunFile.MAX_READINGS, 100, 256L << 20);
    }

    /** The same with another code range. */
    public ReadOptions withCodeRange(CodeRange range) {
        return new ReadOptions(range, maxReadings, maxProblems, maxBytes);
    }

    /** The same with another limit of readings. */
    public ReadOptions withMaxReadings(int limit) {
        return new ReadOptions(codeRange, limit, maxProblems, maxBytes);
    }

    /** The same with another length of the list of problems. */
    public ReadOptions withMaxProblems(int limit) {
        return new ReadOptions(codeRange, maxReadings, limit, maxBytes);
    }

    /** The same with another limit of bytes. */
    public ReadOptions withMaxBytes(long limit) {
        return new ReadOptions(codeRange, maxReadings, maxProblems, limit);
    }

    private static void within(String name, long value, long max) {
        if (value < 1 || value > max) {
            throw new IllegalArgumentException(name + " is " + value + ": it must lie within 1 and " + max);
        }
    }
}
