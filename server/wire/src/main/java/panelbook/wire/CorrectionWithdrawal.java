package panelbook.wire;

import java.time.Instant;

/**
 * That a correction is no longer applied; it stays on record.
 *
 * @param withdrawnBy holder of the token
 */
public record CorrectionWithdrawal(String reason, Instant withdrawnAt, String withdrawnBy) {}
