package panelbook.app.matching;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A match in force, between a follower and the preset that is the hero of a room now.
 *
 * @param followerRunId closing run of the follower at sign-off; null when it was signed without, or the run was withdrawn
 * @param heroRunId closing run of the hero at sign-off; null likewise
 * @param heroRebased whether the hero has had a new baseline since its closing run, or the sign-off without
 * @param followerRebased whether the follower has had a new baseline since its closing run, or the sign-off without
 * @param heroRunWithdrawn whether the hero's closing run was withdrawn
 * @param followerRunWithdrawn whether the follower's closing run was withdrawn
 */
public record Agreement(
        UUID matchId,
        UUID followerPresetId,
        UUID heroPresetId,
        String operator,
        @Nullable UUID followerRunId,
        @Nullable UUID heroRunId,
        Instant signedAt,
        boolean heroRebased,
        boolean followerRebased,
        boolean heroRunWithdrawn,
        boolean followerRunWithdrawn) {

    /** Whether a closing run was withdrawn. */
    public boolean runWithdrawn() {
        return heroRunWithdrawn || followerRunWithdrawn;
    }

    /** Whether it is in question by what became of the hero. */
    public boolean heroInQuestion() {
        return heroRebased || heroRunWithdrawn;
    }

    /** Whether it is in question by what became of the follower. */
    public boolean followerInQuestion() {
        return followerRebased || followerRunWithdrawn;
    }

    /** Whether there are closing runs, so that a residual can be judged against the agreement. */
    public boolean restsOnRuns() {
        return followerRunId != null && heroRunId != null;
    }

    /** Why the agreement is in question, in words; null when it is not. */
    public @Nullable String inQuestion() {
        return inQuestion(heroRebased, followerRebased, heroRunWithdrawn, followerRunWithdrawn);
    }

    static @Nullable String inQuestion(
            boolean heroRebased, boolean followerRebased, boolean heroRunWithdrawn, boolean followerRunWithdrawn) {
        if (heroRunWithdrawn || followerRunWithdrawn) {
            return "the closing run of the " + (heroRunWithdrawn ? "hero" : "follower")
                    + " was withdrawn: no residual is judged against it";
        }
        if (heroRebased) {
            return followerRebased
                    ? "the hero and the follower have had new baselines since sign-off"
                    : "the hero has had a new baseline since sign-off";
        }
        return followerRebased ? "the follower has had a new baseline since sign-off" : null;
    }
}
