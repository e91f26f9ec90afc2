package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A value of a panel-hours counter that does not go with those around it.
 *
 * @param display facility/room/display
 * @param before the value before it
 * @param value the value that is asked about
 * @param after the value after it, where that speaks against it
 * @param text the question in words
 * @param answer null while it is open
 */
public record PanelHoursQuestion(
        UUID id,
        UUID displayId,
        String display,
        PanelHoursQuestionKind kind,
        PanelHours before,
        PanelHours value,
        @Nullable PanelHours after,
        String text,
        Instant askedAt,
        @Nullable PanelHoursAnswer answer) {}
