package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A match from its opening to its end, with all that was tried.
 *
 * @param follower path
 * @param hero path
 * @param target its name
 * @param instrument name of the meter in hand
 * @param conditions what had to be true, and whether it was
 * @param advice of the opening
 * @param startingTrims how the controls stood at the opening
 * @param settings how they stand after the last step
 * @param guards those that refuse, cannot decide or were overridden, as things stand
 * @param signOff the one that counts; null unless signed
 * @param endedBecause why it was given up; null unless it was
 */
public record MatchStory(
        UUID id,
        UUID followerPresetId,
        String follower,
        UUID heroPresetId,
        String hero,
        String target,
        String operator,
        @Nullable UUID instrumentId,
        @Nullable String instrument,
        StoryState state,
        List<Condition> conditions,
        List<String> advice,
        List<Trim> startingTrims,
        List<MatchStep> steps,
        List<Trim> settings,
        List<GuardReport> guards,
        @Nullable Match signOff,
        @Nullable String endedBecause,
        Instant openedAt,
        String recordedBy) {}
