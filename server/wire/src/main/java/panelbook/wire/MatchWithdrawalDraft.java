package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * A match is to count no longer.
 *
 * @param reason what the mistake was
 * @param operator whom it was signed for: it is entered again for that operator; null when it is to count for nobody
 */
public record MatchWithdrawalDraft(String reason, @Nullable String operator) {}
