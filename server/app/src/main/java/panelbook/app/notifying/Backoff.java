package panelbook.app.notifying;

import java.time.Duration;
import java.util.UUID;

/** How long to wait before a message that failed is tried again. */
final class Backoff {

    private static final double SPREAD = 0.2;

    private Backoff() {}

    /**
     * Doubles with each failure up to the longest wait, and spreads by up to a fifth to either side, so that receivers
     * that came back are not met by everybody at once. The spread comes from the message's id: nothing is left to chance.
     *
     * @param failures so far, from 1
     */
    static Duration after(int failures, UUID messageId, Duration first, Duration longest) {
        var doublings = Math.min(failures - 1, 30);
        var plain = Math.min((double) first.toMillis() * (1L << doublings), longest.toMillis());
        return Duration.ofMillis(Math.round(plain * (1 + SPREAD * spread(messageId, failures))));
    }

    /** From -1 to 1, the same for the same arguments: the finalizer of the SplitMix64 generator spreads the bits. */
    private static double spread(UUID id, int failures) {
        var bits = id.getMostSignificantBits() ^ id.getLeastSignificantBits() ^ (failures * 0x9E3779B97F4A7C15L);
        bits = (bits ^ (bits >>> 30)) * 0xBF58476D1CE4E5B9L;
        bits = (bits ^ (bits >>> 27)) * 0x94D049BB133111EBL;
        return (bits ^ (bits >>> 31)) / (double) Long.MAX_VALUE;
    }
}
