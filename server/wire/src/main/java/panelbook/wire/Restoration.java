package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What to set to get back to an earlier state of a match.
 *
 * @param matchId of the story or of the sign-off
 * @param step whose state it is, 0 for the opening; null for the state signed off without a story
 * @param follower path
 * @param state what it was, in words
 * @param from what the follower is taken to stand at now, in words
 * @param changes of every control that either state has off its calibrated setting, unchanged ones included
 */
public record Restoration(
        UUID matchId, @Nullable Integer step, String follower, String state, String from, List<TrimChange> changes) {}
