package panelbook.wire;

import java.time.Instant;

/**
 * What became of a quirk; the quirk stays on record.
 *
 * @param word what became of it
 * @param settledBy holder of the token
 */
public record Settlement(String word, Instant settledAt, String settledBy) {}
