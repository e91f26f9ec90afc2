package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A calendar of visits to open: of a calibrator or of a room, one of them.
 *
 * @param calibrator name or id
 */
public record CalendarFeedDraft(
        UUID id, @Nullable String calibrator, @Nullable UUID roomId) {}
