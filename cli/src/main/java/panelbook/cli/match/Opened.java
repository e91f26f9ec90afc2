package panelbook.cli.match;

import org.jspecify.annotations.Nullable;
import panelbook.wire.MatchStory;
import panelbook.wire.OpeningDraft;

/**
 * The opening of a match, with the names that a person knows its parts by.
 *
 * @param service address of the service that it belongs to
 * @param follower path
 * @param hero path
 * @param target its name
 * @param instrument name of the meter in hand
 */
public record Opened(
        String service,
        OpeningDraft draft,
        String follower,
        String hero,
        String target,
        @Nullable String instrument) {

    /** The opening of a story that another machine began; what it was told of warm-up and light is in its conditions only. */
    public static Opened of(String service, MatchStory story) {
        var draft = new OpeningDraft(
                story.id(),
                story.followerPresetId(),
                story.heroPresetId(),
                story.operator(),
                story.instrumentId(),
                null,
                null,
                null,
                story.startingTrims(),
                story.openedAt());
        return new Opened(service, draft, story.follower(), story.hero(), story.target(), story.instrument());
    }
}
