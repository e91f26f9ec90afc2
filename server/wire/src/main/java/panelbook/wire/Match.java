package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A signed match.
 *
 * @param follower path
 * @param hero path
 * @param inForce false when a later one of the same operator replaced it
 * @param inQuestion why it is in question, null when it is not
 */
public record Match(
        UUID id,
        UUID followerPresetId,
        String follower,
        UUID heroPresetId,
        String hero,
        String operator,
        UUID followerRunId,
        UUID heroRunId,
        AgreedOffset agreedOffset,
        List<Trim> trims,
        @Nullable String material,
        @Nullable String remarks,
        Instant signedAt,
        String recordedBy,
        boolean inForce,
        @Nullable String inQuestion) {}
