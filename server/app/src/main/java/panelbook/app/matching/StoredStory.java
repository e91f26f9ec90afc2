package panelbook.app.matching;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.app.matching.story.Story;
import panelbook.wire.Condition;
import panelbook.wire.OpeningDraft;
import panelbook.wire.StoryState;

/**
 * The story of a match as the book holds it.
 *
 * @param opening what was said at the opening
 * @param follower path
 * @param hero path
 * @param target name of the follower's
 * @param instrument name of the meter in hand
 * @param advice of the opening
 * @param matchId of its sign-off; null unless there is one that counts
 * @param endedBecause why it was given up; null unless it was
 */
record StoredStory(
        OpeningDraft opening,
        Story story,
        String follower,
        String hero,
        String target,
        @Nullable String instrument,
        List<Condition> conditions,
        List<String> advice,
        @Nullable UUID matchId,
        @Nullable String endedBecause,
        Instant openedAt,
        Instant recordedAt,
        String recordedBy) {

    UUID id() {
        return opening.id();
    }

    StoryState state() {
        if (matchId != null) {
            return StoryState.SIGNED;
        }
        return endedBecause == null ? StoryState.OPEN : StoryState.GIVEN_UP;
    }

    /** The same with another story, e.g. as it stood when a step had just been made. */
    StoredStory telling(Story other) {
        return new StoredStory(
                opening,
                other,
                follower,
                hero,
                target,
                instrument,
                conditions,
                advice,
                matchId,
                endedBecause,
                openedAt,
                recordedAt,
                recordedBy);
    }
}
