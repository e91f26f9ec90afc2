package panelbook.cli.match;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Folders;
import panelbook.cli.service.Paths;
import panelbook.cli.terminal.Failure;
import panelbook.wire.MatchStory;

/** The folder of journals: {@code matches} in the client's state folder, one file per match, its owner's only. */
public final class KeptMatches {

    private static final int LEAST_OF_AN_ID = 4;

    private final Path folder;
    private final Clock written;
    private final Clock happened;

    /**
     * Matches in the state folder.
     *
     * @param written stamps lines of the journals
     * @param happened stamps what happens in the room; looked at once for each step
     */
    public KeptMatches(Folders folders, Clock written, Clock happened) {
        this.folder = folders.state().resolve("matches");
        this.written = written;
        this.happened = happened;
    }

    /** The folder. */
    public Path folder() {
        return folder;
    }

    /** Opens a match; it is on the disk when this returns. */
    public KeptMatch open(Opened opened) {
        return KeptMatch.open(folder, written, happened, opened);
    }

    /** Takes up a match that is kept here. */
    public KeptMatch resume(UUID id) {
        return KeptMatch.resume(folder, written, happened, id);
    }

    /** Takes up a match that another machine began. */
    public KeptMatch takeOver(String service, MatchStory story) {
        return KeptMatch.takeOver(folder, written, happened, service, story);
    }

    /** Whether a match is kept here and not over. */
    public boolean isKept(UUID id) {
        return KeptMatch.isKept(folder, id);
    }

    /** Matches that are not over, as they stand in their journals, the latest last. */
    public List<KeptStory> open() {
        var stories = new ArrayList<KeptStory>();
        for (var file : files()) {
            var story = new KeptStory();
            Journal.read(file).forEach(story::apply);
            if (story.hasOpening() && isUnderWay(story)) {
                stories.add(story);
            }
        }
        stories.sort(java.util.Comparator.comparing(KeptMatches::openedAt));
        return stories;
    }

    private static boolean isUnderWay(KeptStory story) {
        return switch (story.state()) {
            case OPEN, ENDING -> true;
            case CLOSED -> !story.refused().isEmpty();
            case NOT_OPENED -> false;
        };
    }

    private static java.time.Instant openedAt(KeptStory story) {
        var at = story.opened().draft().openedAt();
        return at == null ? java.time.Instant.EPOCH : at;
    }

    private List<Path> files() {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (var files = Files.list(folder)) {
            return files.filter(file -> file.toString().endsWith(".jsonl"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw Failure.failed("The matches in " + folder + " cannot be listed: " + e.getMessage(), e);
        }
    }

    /**
     * The open match here that a person means by its id, the beginning of its id, or its follower.
     *
     * @return null when there is none
     * @throws Failure when there are several
     */
    public @Nullable KeptStory find(String reference) {
        var fits = open().stream().filter(story -> fits(story, reference)).toList();
        if (fits.size() > 1) {
            throw Failure.failed("\"" + reference + "\" may be any of: "
                    + String.join(", ", fits.stream().map(KeptMatches::named).toList()) + ". Type more of the id.");
        }
        return fits.isEmpty() ? null : fits.get(0);
    }

    private static boolean fits(KeptStory story, String reference) {
        var id = story.id().toString();
        return id.equals(reference)
                || reference.length() >= LEAST_OF_AN_ID && id.startsWith(reference)
                || Paths.endsWith(story.opened().follower(), reference);
    }

    /** A match as a person tells it from others. */
    public static String named(KeptStory story) {
        return story.id() + " (" + story.opened().follower() + " to "
                + story.opened().hero() + " for " + story.opened().draft().operator() + ")";
    }
}
