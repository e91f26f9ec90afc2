package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A run is to count no longer.
 *
 * @param reason what the mistake was
 * @param presetId the preset that it was taken on: its readings are entered again there; null when they are to count nowhere
 */
public record RunWithdrawalDraft(String reason, @Nullable UUID presetId) {}
