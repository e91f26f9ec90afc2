package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The sign-off of a match that was not opened before. The closing runs are given both or neither; without them the match is
 * unmeasured.
 *
 * @param operator who accepted it
 * @param followerRunId closing run of the follower
 * @param heroRunId closing run of the hero
 * @param trims complete: a control not listed stands at its calibrated setting
 * @param material what was looked at
 * @param signedAt now when null
 */
public record SignOffDraft(
        UUID id,
        UUID followerPresetId,
        UUID heroPresetId,
        String operator,
        @Nullable UUID followerRunId,
        @Nullable UUID heroRunId,
        List<Trim> trims,
        @Nullable String material,
        @Nullable String remarks,
        @Nullable Instant signedAt) {}
