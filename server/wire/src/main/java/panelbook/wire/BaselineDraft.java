package panelbook.wire;

import java.util.UUID;

/**
 * A calibrator declares a baseline.
 *
 * @param runId an as-left run of the preset
 * @param reason why it is to be the baseline
 */
public record BaselineDraft(UUID runId, String reason) {}
