package panelbook.cli.match;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Look;
import panelbook.wire.Observation;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.Place;

/**
 * The words of a session. The beginning of a word is enough where it leaves no doubt; a word that is not understood is
 * answered with those that are.
 */
public final class StepWords {

    /** Words that begin a step. */
    public static final List<String> OF_STEPS =
            List.of("saw", "trim", "better", "worse", "same", "read", "back", "keep", "note");

    /** Other words of a session. */
    public static final List<String> OF_SESSION =
            List.of("show", "where", "suggest", "restore", "send", "again", "leave", "sign", "give", "help", "quit");

    private static final Pattern CHANGE = Pattern.compile("[+-]\\d{1,4}");
    private static final Pattern SETTING = Pattern.compile("=[+-]?\\d{1,4}");
    private static final String NOTE = "--";

    private StepWords() {}

    /**
     * What a line asks for.
     *
     * @param word first word, in full
     * @param rest what follows it
     * @param step the step; null when it is another word of the session
     */
    public record Command(
            String word, List<String> rest, @Nullable SaidStep step) {

        /** What follows the first word, as text. */
        public String text() {
            return String.join(" ", rest);
        }
    }

    /** A line of a session; null for an empty one or a remark that begins with #. */
    public static @Nullable Command command(String line) {
        if (line.isBlank() || line.strip().startsWith("#")) {
            return null;
        }
        var free = freeText(line.strip());
        if (free != null) {
            return free;
        }
        var phrase = Phrase.of(line);
        if (isTrim(phrase)) {
            return new Command("trim", phrase.words(), trim(phrase));
        }
        var all = new ArrayList<>(OF_STEPS);
        all.addAll(OF_SESSION);
        var word = one("There is no word", phrase.first(), all, w -> w);
        var rest = phrase.from(1);
        return new Command(word, rest.words(), OF_STEPS.contains(word) ? step(word, rest) : null);
    }

    // a note is taken as it stands, with every quote in it
    private static @Nullable Command freeText(String line) {
        var words = line.split("\\s+", 2);
        if (!"note".startsWith(words[0])) {
            return null;
        }
        var text = words.length < 2 ? "" : words[1];
        return new Command("note", List.of(text), SaidStep.note(needed(text, "Type what is to be noted: note TEXT")));
    }

    /** A step. */
    public static SaidStep step(String line) {
        var command = command(line);
        if (command == null || command.step() == null) {
            throw Failure.usage(
                    "\"" + line + "\" is no step. A step begins with: " + String.join(", ", OF_STEPS) + ".");
        }
        return command.step();
    }

    // "gain.red -1" needs no word before it
    private static boolean isTrim(Phrase phrase) {
        return phrase.size() >= 2
                && !OF_STEPS.contains(phrase.first())
                && !OF_SESSION.contains(phrase.first())
                && isClicks(phrase.word(1));
    }

    private static boolean isClicks(String word) {
        return CHANGE.matcher(word).matches() || SETTING.matcher(word).matches();
    }

    private static SaidStep step(String word, Phrase said) {
        return switch (word) {
            case "keep" -> keep(said);
            default -> noted(word, said);
        };
    }

    private static SaidStep noted(String word, Phrase said) {
        var dashes = said.indexOf(NOTE);
        var note = dashes < 0 ? null : needed(said.from(dashes + 1).text(), "After -- comes a note; there is none.");
        var rest = dashes < 0 ? said : said.until(dashes);
        return switch (word) {
            case "saw" -> SaidStep.saw(observation(rest), note);
            case "trim" -> trim(rest, note);
            case "read" -> reading(rest, note);
            case "back" -> SaidStep.back(number(rest), note);
            default -> verdict(word, rest, note);
        };
    }

    private static SaidStep verdict(String word, Phrase rest, @Nullable String note) {
        if (!rest.isEmpty()) {
            throw Failure.usage("Nothing follows " + word + " but a note: " + word + " -- " + rest.text());
        }
        return SaidStep.verdict(OperatorVerdict.valueOf(word.toUpperCase(Locale.ROOT)), note);
    }

    private static SaidStep reading(Phrase rest, @Nullable String note) {
        if (rest.isEmpty()) {
            throw Failure.usage("Name the file of the run: read FILE");
        }
        return SaidStep.reading(rest.words(), note);
    }

    private static @Nullable Integer number(Phrase rest) {
        if (rest.isEmpty()) {
            return null;
        }
        if (rest.size() == 1 && rest.first().matches("\\d{1,6}")) {
            return Integer.valueOf(rest.first());
        }
        throw Failure.usage("\"" + rest.text()
                + "\" is no number of a step. Type back N, 0 for how it began, or back alone to undo the last trim.");
    }

    private static SaidStep trim(Phrase phrase) {
        var dashes = phrase.indexOf(NOTE);
        return dashes < 0
                ? trim(phrase, null)
                : trim(
                        phrase.until(dashes),
                        needed(phrase.from(dashes + 1).text(), "After -- comes a note; there is none."));
    }

    private static SaidStep trim(Phrase said, @Nullable String note) {
        if (said.size() != 2 || !isClicks(said.word(1))) {
            throw Failure.usage((said.isEmpty() ? "That" : "\"" + said.text() + "\"")
                    + " is no trim. Type CONTROL CLICKS with the sign, such as gain.red -1, or CONTROL@LEVEL =CLICKS for where it"
                    + " is to stand.");
        }
        var control = control(said.first());
        var absolute = said.word(1).startsWith("=");
        var clicks = Integer.parseInt(absolute ? said.word(1).substring(1) : said.word(1));
        if (!absolute && clicks == 0) {
            throw Failure.usage("A trim of 0 clicks changes nothing; what was seen goes into saw or note.");
        }
        return SaidStep.trim(control[0], control[1], clicks, absolute, note);
    }

    private static String[] control(String word) {
        var at = word.indexOf('@');
        var parts = at < 0 ? new String[] {word, "all"} : new String[] {word.substring(0, at), word.substring(at + 1)};
        if (parts[0].isEmpty() || parts[1].isEmpty()) {
            throw Failure.usage(
                    "\"" + word + "\" names no control. Type CONTROL or CONTROL@LEVEL, such as gain.red@low.");
        }
        return parts;
    }

    private static SaidStep keep(Phrase said) {
        var because = said.indexOf("because");
        if (because != 1 || said.size() < 3) {
            throw Failure.usage("Type keep CONTROL because REASON; the reason stays on the record.");
        }
        var control = control(said.first());
        return SaidStep.keep(control[0], control[1], said.from(2).text());
    }

    private static Observation observation(Phrase said) {
        var on = said.indexOf("on");
        var material = on < 0 ? null : needed(said.from(on + 1).text(), "After on comes the material; there is none.");
        var words = on < 0 ? said : said.until(on);
        if (words.isEmpty()) {
            throw Failure.usage(
                    "Type what was seen and where, such as: saw redder skin on \"beach, shot 3\". How it looks: "
                            + words(Look.class) + ". Where: " + words(Place.class) + ".");
        }
        var look = one("There is no look", words.first(), List.of(Look.values()), Object::toString);
        var place = words.size() < 2
                ? Place.WHOLE_IMAGE
                : one("There is no place", words.word(1), List.of(Place.values()), Object::toString);
        var colour = words.size() < 3 ? null : words.from(2).text();
        if (place == Place.ONE_COLOUR && colour == null) {
            throw Failure.usage("Which colour? Type saw " + look + " one-colour COLOUR.");
        }
        if (place != Place.ONE_COLOUR && colour != null) {
            throw Failure.usage(
                    "\"" + colour + "\" is too much here. A colour follows one-colour only; the material follows on.");
        }
        return new Observation(look, place, colour, material);
    }

    private static String needed(String text, String otherwise) {
        if (text.isBlank()) {
            throw Failure.usage(otherwise);
        }
        return text;
    }

    private static <E extends Enum<E>> String words(Class<E> type) {
        return Arrays.stream(type.getEnumConstants()).map(Object::toString).collect(Collectors.joining(", "));
    }

    /**
     * The one that a word means: by its whole name, else by its beginning, else by the beginning of a part of it, so that
     * "magenta" is more-magenta.
     */
    static <T> T one(String none, String word, Collection<T> all, Function<T, String> name) {
        var sought = word.toLowerCase(Locale.ROOT);
        for (var fits : List.<java.util.function.Predicate<String>>of(
                n -> n.equals(sought), n -> n.startsWith(sought), n -> n.contains("-" + sought))) {
            var found =
                    all.stream().filter(thing -> fits.test(name.apply(thing))).toList();
            if (found.size() == 1) {
                return found.get(0);
            }
            if (found.size() > 1) {
                throw Failure.usage(
                        "\"" + word + "\" may be " + list(found, name, " or ") + ". Type a little more of it.");
            }
        }
        throw Failure.usage(none + " \"" + word + "\". There are: " + list(all, name, ", ") + ".");
    }

    private static <T> String list(Collection<T> all, Function<T, String> name, String between) {
        return all.stream().map(name).collect(Collectors.joining(between));
    }
}
