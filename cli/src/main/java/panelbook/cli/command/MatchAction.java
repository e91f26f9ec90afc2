package panelbook.cli.command;

import java.time.Clock;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptMatch;
import panelbook.cli.match.KeptMatches;
import panelbook.cli.match.KeptStory;
import panelbook.cli.service.Folders;
import panelbook.cli.service.Names;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Failure;
import panelbook.wire.MatchStory;
import panelbook.wire.StoryState;

/** What the commands on a match under way share. */
abstract class MatchAction extends Action {

    static final String MATCH = "Id of the match, the beginning of it, or its follower.";

    final KeptMatches matches() {
        return new KeptMatches(Folders.of(at()), at().clock(), clock());
    }

    /** What steps are stamped by. */
    Clock clock() {
        return at().clock();
    }

    /** The match that a person means, under this machine's journal; begun elsewhere, it is taken over. */
    final KeptMatch attach(String reference) {
        var kept = matches().find(reference);
        if (kept != null) {
            checkService(kept);
            return matches().resume(kept.id());
        }
        if (!Names.isId(reference)) {
            throw Failure.failed("No match under way on this machine is \"" + reference
                    + "\". panelbook match session lists them; one begun elsewhere goes by its whole id.");
        }
        return takenOver(reference);
    }

    private void checkService(KeptStory kept) {
        var theirs = kept.opened().service();
        if (!theirs.equals(connection().logIn().service())) {
            throw Failure.failed("Match " + kept.id() + " belongs to the service at " + theirs
                    + ". Log in there: panelbook log-in " + theirs);
        }
    }

    private KeptMatch takenOver(String id) {
        var story = service().get(MatchStory.class, "/match-stories/" + Names.id("a match", id));
        if (story.state() != StoryState.OPEN) {
            throw Failure.failed("Match " + story.id() + " is over: "
                    + (story.state() == StoryState.SIGNED
                            ? "it was signed off"
                            : "it was given up, because " + story.endedBecause())
                    + ". Next: panelbook match story " + story.id());
        }
        remember(story);
        return matches().takeOver(service().address(), story);
    }

    // so that readings can be named while the service is away
    private void remember(MatchStory story) {
        names().preset(story.followerPresetId().toString());
        names().preset(story.heroPresetId().toString());
        if (story.instrumentId() != null) {
            names().instrument(story.instrumentId().toString());
        }
        names().remembered().save();
    }

    final MatchTalk talk(KeptMatch match, Asking asking) {
        return new MatchTalk(connection(), printer(), match, asking);
    }

    /** What was meant, from the service or, while that is away, from what this machine remembers; null when it is unknown. */
    static <T> @Nullable T named(
            java.util.function.Supplier<T> fresh, java.util.function.Supplier<@Nullable T> remembered) {
        try {
            return fresh.get();
        } catch (ServiceAway e) {
            return remembered.get();
        }
    }
}
