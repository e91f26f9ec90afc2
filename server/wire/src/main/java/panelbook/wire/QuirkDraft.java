package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A quirk to note.
 *
 * @param note what the next visitor should know
 * @param seenAt when it was noticed; now when null
 */
public record QuirkDraft(UUID id, String note, @Nullable Instant seenAt) {}
