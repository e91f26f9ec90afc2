package panelbook.wire;

/**
 * A correction to withdraw.
 *
 * @param reason for people
 */
public record CorrectionWithdrawalDraft(String reason) {}
