package panelbook.app.matching;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.matching.story.Guards;
import panelbook.app.matching.story.Step;
import panelbook.app.matching.story.Step.Half;
import panelbook.app.matching.story.Story;
import panelbook.wire.GuardReport;
import panelbook.wire.Match;
import panelbook.wire.MatchStep;
import panelbook.wire.MatchStory;
import panelbook.wire.StepKind;

/** Stories as the contract shows them. */
@Component
class StoryViews {

    private final StoryGuards guards;
    private final MatchRows matches;

    StoryViews(StoryGuards guards, MatchRows matches) {
        this.guards = guards;
        this.matches = matches;
    }

    MatchStory of(StoredStory stored) {
        var story = stored.story();
        var said = guards.of(stored.opening().followerPresetId(), story);
        var inForce = story.inForce();
        return new MatchStory(
                stored.id(),
                stored.opening().followerPresetId(),
                stored.follower(),
                stored.opening().heroPresetId(),
                stored.hero(),
                stored.target(),
                stored.opening().operator(),
                stored.opening().instrumentId(),
                stored.instrument(),
                stored.state(),
                stored.conditions(),
                stored.advice(),
                stored.opening().startingTrims(),
                story.steps().stream()
                        .map(step -> step(story, step, inForce, said))
                        .toList(),
                story.now().trims(),
                said.map(Guards::standing).orElse(List.of()),
                signOff(stored),
                stored.endedBecause(),
                stored.openedAt(),
                stored.recordedBy());
    }

    private @Nullable Match signOff(StoredStory stored) {
        return stored.matchId() == null ? null : matches.find(stored.matchId()).orElse(null);
    }

    /** A step with what the guards said of it. */
    MatchStep step(Story story, Step step, Set<Integer> inForce, Optional<Guards> said) {
        var draft = step.said();
        return new MatchStep(
                draft.id(),
                draft.number(),
                draft.kind(),
                draft.observation(),
                draft.trim(),
                draft.verdict(),
                draft.runId(),
                step.of() == null ? null : (Boolean) (step.of() == Half.HERO),
                draft.returnTo(),
                draft.control(),
                draft.level(),
                draft.note(),
                story.after(step.number()).trims(),
                !inForce.contains(step.number()),
                reports(step, said),
                draft.at(),
                step.recordedBy());
    }

    private static List<GuardReport> reports(Step step, Optional<Guards> said) {
        return step.said().kind() == StepKind.READING
                ? said.map(guards -> guards.of(step.number())).orElse(List.of())
                : List.of();
    }
}
