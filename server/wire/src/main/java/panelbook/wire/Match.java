package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A signed match.
 *
 * @param storyId the match that was opened; null when only its sign-off was recorded
 * @param follower path
 * @param hero path
 * @param followerRunId closing run; null when unmeasured
 * @param heroRunId closing run; null when unmeasured
 * @param agreedOffset null when unmeasured: no residual is judged against it then
 * @param inForce false when a later one of the same operator replaced it, or it was withdrawn
 * @param inQuestion why it is in question, null when it is not
 * @param withdrawn why it counts no longer, null when it counts
 */
public record Match(
        UUID id,
        @Nullable UUID storyId,
        UUID followerPresetId,
        String follower,
        UUID heroPresetId,
        String hero,
        String operator,
        @Nullable UUID followerRunId,
        @Nullable UUID heroRunId,
        @Nullable AgreedOffset agreedOffset,
        List<Trim> trims,
        @Nullable String material,
        @Nullable String remarks,
        Instant signedAt,
        String recordedBy,
        boolean inForce,
        @Nullable String inQuestion,
        @Nullable Withdrawal withdrawn) {

    /** Whether closing runs show what was agreed. */
    public boolean measured() {
        return agreedOffset != null;
    }
}
