package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A room to add or edit.
 *
 * @param timeZone IANA name; the facility's when null
 */
public record RoomDraft(
        UUID id, UUID facilityId, String name, @Nullable String timeZone) {}
