package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * An answer to a question about panel hours.
 *
 * @param before with a typing error, whether the value before the one asked about is the mistyped one
 * @param correctedHours with a typing error, what the counter said, h; null when nobody knows
 */
public record PanelHoursAnswerDraft(
        PanelHoursAnswerKind answer,
        boolean before,
        @Nullable Double correctedHours,
        @Nullable String note) {}
