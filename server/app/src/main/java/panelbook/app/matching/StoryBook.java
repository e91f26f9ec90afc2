package panelbook.app.matching;

import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.matching.story.Story;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.StepKind;
import panelbook.wire.TrimOrigin;

/** Finds stories of matches again. */
@Component
public class StoryBook {

    private final StoryRows rows;
    private final StoryViews views;

    StoryBook(StoryRows rows, StoryViews views) {
        this.rows = rows;
        this.views = views;
    }

    /** The matches under way on followers that stand in a room, newest first. */
    public List<MatchStory> openIn(UUID roomId) {
        return rows
                .list(rows.select(
                                " where fro.id = :room and " + StoryRows.OPEN + " order by s.opened_at desc, s.id desc")
                        .param("room", roomId))
                .stream()
                .map(views::of)
                .toList();
    }

    /** How the trims of matches came about; those signed without having been opened are left out. */
    public List<TrimOrigin> originsOf(Collection<Match> matches) {
        var ids = matches.stream().map(Match::storyId).filter(Objects::nonNull).toArray(UUID[]::new);
        var stories = rows.list(rows.select(" where s.id = any (:ids)").param("ids", ids));
        return matches.stream()
                .flatMap(match -> stories.stream()
                        .filter(stored -> stored.id().equals(match.storyId()))
                        .map(stored -> origin(match, stored)))
                .toList();
    }

    private static TrimOrigin origin(Match match, StoredStory stored) {
        var story = stored.story();
        return new TrimOrigin(
                match.id(),
                stored.id(),
                stored.openedAt(),
                story.steps().size(),
                story.steps().size() - story.inForce().size(),
                steps(story, StepKind.READING),
                verdicts(story, OperatorVerdict.BETTER),
                verdicts(story, OperatorVerdict.WORSE),
                verdicts(story, OperatorVerdict.SAME),
                steps(story, StepKind.OVERRIDE));
    }

    private static int steps(Story story, StepKind kind) {
        return (int) story.steps().stream()
                .filter(step -> step.said().kind() == kind)
                .count();
    }

    private static int verdicts(Story story, OperatorVerdict verdict) {
        return (int) story.steps().stream()
                .filter(step -> step.said().verdict() == verdict)
                .count();
    }
}
