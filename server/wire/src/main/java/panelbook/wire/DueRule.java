package panelbook.wire;

import java.time.Instant;

/**
 * One reason why a preset is due.
 *
 * @param at from when on
 * @param explanation in words
 */
public record DueRule(DueReason reason, Instant at, Sureness sureness, String explanation) {}
