package panelbook.app.matching;

import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.matching.story.Guards;
import panelbook.app.matching.story.Step;
import panelbook.app.matching.story.Step.Half;
import panelbook.app.matching.story.Story;
import panelbook.app.rest.Added;
import panelbook.app.rest.Refusal;
import panelbook.wire.Match;
import panelbook.wire.SignOffDraft;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.StorySignOffDraft;

/** Signs off matches that were opened, as their last step left them. */
@Service
class StorySignOffs {

    private final Stories stories;
    private final StoryGuards guards;
    private final SignOffs signOffs;

    StorySignOffs(Stories stories, StoryGuards guards, SignOffs signOffs) {
        this.stories = stories;
        this.guards = guards;
        this.signOffs = signOffs;
    }

    /**
     * Signs a match off; the same draft again is answered with the sign-off as it stands.
     *
     * @throws Refusal when the match has ended otherwise, when the follower was turned since its closing run, when a guard
     *     refuses and nobody overrode it, or when the two are a follower and its hero no longer
     */
    @Transactional
    Added<Match> signOff(UUID storyId, StorySignOffDraft draft, Caller caller) {
        var stored = stories.locked(storyId);
        if (!signOffs.isKnown(draft.id())) {
            Stories.mustBeOpen(stored);
            mustStandAsRead(stored.story(), draft.followerRunId());
            mustNotBeRefused(stored, draft);
        }
        return signOffs.signOff(whole(stored, draft), storyId, caller);
    }

    private static SignOffDraft whole(StoredStory stored, StorySignOffDraft draft) {
        return new SignOffDraft(
                draft.id(),
                stored.opening().followerPresetId(),
                stored.opening().heroPresetId(),
                stored.opening().operator(),
                draft.followerRunId(),
                draft.heroRunId(),
                stored.story().now().trims(),
                draft.material(),
                draft.remarks(),
                draft.signedAt());
    }

    private static void mustStandAsRead(Story story, @Nullable UUID closingRun) {
        story.followerReadings().stream()
                .filter(taken -> taken.runId().equals(closingRun))
                .reduce((first, last) -> last)
                .filter(taken -> !taken.settings().equals(story.now()))
                .ifPresent(taken -> {
                    throw Refusal.conflict("The closing run of the follower was taken at step " + taken.step() + ", "
                            + taken.settings() + ", but the controls stand " + story.now()
                            + ": read the follower once more.");
                });
    }

    private void mustNotBeRefused(StoredStory stored, StorySignOffDraft draft) {
        var refusing = guards.of(stored.opening().followerPresetId(), withClosingRun(stored, draft))
                .map(Guards::refusing)
                .orElse(java.util.List.of());
        if (!refusing.isEmpty()) {
            throw Refusal.conflict(
                    refusing.stream().map(report -> report.explanation()).collect(Collectors.joining(" "))
                            + " Set "
                            + refusing.stream().map(report -> report.control()).collect(Collectors.joining(", "))
                            + " back, or override with a reason.");
        }
    }

    /** The closing run is a reading as the controls stand, whether or not it was a step. */
    private static Story withClosingRun(StoredStory stored, StorySignOffDraft draft) {
        var story = stored.story();
        var run = draft.followerRunId();
        if (run == null
                || story.followerReadings().stream()
                        .anyMatch(taken -> taken.runId().equals(run))) {
            return story;
        }
        var reading = new StepDraft(
                draft.id(),
                story.steps().size() + 1,
                StepKind.READING,
                null,
                null,
                null,
                run,
                null,
                null,
                null,
                null,
                stored.openedAt());
        return story.with(new Step(reading, Half.FOLLOWER, stored.recordedBy()));
    }
}
