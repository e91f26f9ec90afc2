package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The operator's acceptance of a match that was opened. The trims are those that its last step left. The closing runs are given
 * both or neither; without them the match is unmeasured.
 *
 * @param id of the sign-off
 * @param material what was looked at
 * @param signedAt now when null
 */
public record StorySignOffDraft(
        UUID id,
        @Nullable UUID followerRunId,
        @Nullable UUID heroRunId,
        @Nullable String material,
        @Nullable String remarks,
        @Nullable Instant signedAt) {}
