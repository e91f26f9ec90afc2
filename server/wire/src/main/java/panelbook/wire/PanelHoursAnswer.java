package panelbook.wire;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What a person answered to a question about panel hours.
 *
 * @param before whether the value before the one asked about was mistyped
 * @param correctedHours what was entered in place of a mistyped value, h
 * @param answeredBy holder of the token
 */
public record PanelHoursAnswer(
        PanelHoursAnswerKind answer,
        boolean before,
        @Nullable Double correctedHours,
        @Nullable String note,
        Instant answeredAt,
        String answeredBy) {}
