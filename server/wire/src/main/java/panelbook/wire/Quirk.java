package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What people noticed about a display, e.g. a menu that dims the picture.
 *
 * @param display its name
 * @param seenAt when it was noticed
 * @param recordedBy holder of the token
 * @param settlement null while the quirk is open
 */
public record Quirk(
        UUID id,
        UUID displayId,
        String display,
        String note,
        Instant seenAt,
        String recordedBy,
        @Nullable Settlement settlement) {}
