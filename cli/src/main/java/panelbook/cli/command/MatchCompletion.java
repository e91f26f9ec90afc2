package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import panelbook.cli.match.KeptStory;
import panelbook.cli.match.StepText;
import panelbook.cli.match.StepWords;
import panelbook.wire.Look;
import panelbook.wire.Place;

/** What a word in a session may become. */
final class MatchCompletion {

    private static final List<String> USUAL_CONTROLS = List.of(
            "gain.red",
            "gain.green",
            "gain.blue",
            "bias.red",
            "bias.green",
            "bias.blue",
            "black-level",
            "saturation",
            "hue");

    private final KeptStory story;
    private final Path folder;

    /** Completion for a match; files are looked for from {@code folder} on. */
    MatchCompletion(KeptStory story, Path folder) {
        this.story = story;
        this.folder = folder;
    }

    /**
     * Words that fit, in the order to be shown.
     *
     * @param before whole words that stand before it
     * @param begun what there is of it
     */
    List<String> candidates(List<String> before, String begun) {
        if (before.isEmpty()) {
            var words = new ArrayList<>(StepWords.OF_STEPS);
            words.addAll(StepWords.OF_SESSION);
            words.addAll(controls());
            return fitting(words, begun);
        }
        return switch (before.get(0)) {
            case "saw" -> fitting(seen(before), begun);
            case "trim", "keep" -> fitting(before.size() == 1 ? controls() : afterControl(before), begun);
            case "back", "restore" -> before.size() == 1 ? fitting(numbers(), begun) : List.of();
            case "read" -> before.size() == 1 ? files(begun) : List.of();
            case "give" -> before.size() == 1 ? fitting(List.of("up"), begun) : List.of();
            case "sign" ->
                fitting(List.of("--material", "--remarks", "--follower-run", "--hero-run", "--unmeasured"), begun);
            default -> List.of();
        };
    }

    private static List<String> fitting(List<String> words, String begun) {
        return words.stream().filter(word -> word.startsWith(begun)).toList();
    }

    private static List<String> seen(List<String> before) {
        return switch (before.size()) {
            case 1 -> words(Look.values());
            case 2 -> words(Place.values());
            default -> before.contains("on") ? List.of() : List.of("on");
        };
    }

    private static List<String> words(Object[] constants) {
        return Arrays.stream(constants).map(Object::toString).toList();
    }

    private static List<String> afterControl(List<String> before) {
        return before.get(0).equals("keep") && before.size() == 2 ? List.of("because") : List.of();
    }

    // those of this match first: they are the display's own names
    private List<String> controls() {
        var own = new TreeSet<String>();
        for (var trim : story.opened().draft().startingTrims()) {
            own.add(StepText.control(trim.control(), trim.level()));
        }
        for (var step : story.steps()) {
            var trim = step.draft().trim();
            if (trim != null) {
                own.add(StepText.control(trim.control(), trim.level()));
            }
        }
        var all = new ArrayList<>(own);
        USUAL_CONTROLS.stream().filter(control -> !own.contains(control)).forEach(all::add);
        return all;
    }

    private List<String> numbers() {
        return IntStream.rangeClosed(0, story.last())
                .mapToObj(Integer::toString)
                .toList();
    }

    private List<String> files(String begun) {
        var slash = begun.lastIndexOf('/');
        var start = begun.substring(0, slash + 1);
        try (var files = Files.list(folder.resolve(start.isEmpty() ? "." : start))) {
            return files.map(file -> start + file.getFileName() + (Files.isDirectory(file) ? "/" : ""))
                    .filter(name -> name.startsWith(begun))
                    .sorted()
                    .toList();
        } catch (IOException | InvalidPathException e) {
            return List.of();
        }
    }
}
