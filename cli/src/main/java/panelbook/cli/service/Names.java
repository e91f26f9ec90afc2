package panelbook.cli.service;

import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Account;
import panelbook.wire.Calibrator;
import panelbook.wire.Channel;
import panelbook.wire.Display;
import panelbook.wire.Facility;
import panelbook.wire.Instrument;
import panelbook.wire.Preset;
import panelbook.wire.Room;
import panelbook.wire.Target;
import panelbook.wire.ToleranceSet;

/** From what a person types (a name, a path or a UUID) to the thing. Ambiguity is answered with the candidates. */
public final class Names {

    private static final int MOST_CANDIDATES = 500;

    private final Service service;
    private final Remembered remembered;

    /** Names of a service; what is found is remembered. */
    public Names(Service service, Remembered remembered) {
        this.service = service;
        this.remembered = remembered;
    }

    /** The facility of a name or id. */
    public Facility facility(String reference) {
        return find("facility", reference, Facility.class, "/facilities", Facility::name, f -> true, Facility::id);
    }

    /** The room of ROOM, FACILITY/ROOM or an id. */
    public Room room(String reference) {
        return find(
                "room",
                reference,
                Room.class,
                "/rooms",
                Paths::of,
                r -> Paths.endsWith(Paths.of(r), reference),
                Room::id);
    }

    /** The display of DISPLAY, ROOM/DISPLAY, FACILITY/ROOM/DISPLAY, FACILITY/DISPLAY or an id. */
    public Display display(String reference) {
        return find("display", reference, Display.class, "/displays", Paths::of, d -> fits(d, reference), Display::id);
    }

    private static boolean fits(Display display, String reference) {
        return Paths.endsWith(Paths.of(display), reference)
                || reference.equals(display.facility() + "/" + display.name());
    }

    /** The preset of DISPLAY/PRESET, ROOM/DISPLAY/PRESET, FACILITY/ROOM/DISPLAY/PRESET or an id. */
    public Preset preset(String reference) {
        if (!isId(reference) && reference.indexOf('/') < 0) {
            throw Failure.usage("\"" + reference
                    + "\" does not name a preset. Give ROOM/DISPLAY/PRESET; panelbook preset list shows them.");
        }
        var preset = find(
                "preset",
                reference,
                Preset.class,
                "/presets",
                Paths::of,
                p -> Paths.endsWith(Paths.of(p), reference),
                Preset::id);
        remembered.add(preset);
        return preset;
    }

    /** The target of a name or id. */
    public Target target(String reference) {
        var target = find("target", reference, Target.class, "/targets", Target::name, t -> true, Target::id);
        remembered.add(target);
        return target;
    }

    /** The tolerance set of a name or id. */
    public ToleranceSet toleranceSet(String reference) {
        return find(
                "tolerance-set",
                reference,
                ToleranceSet.class,
                "/tolerance-sets",
                ToleranceSet::name,
                t -> true,
                ToleranceSet::id);
    }

    /** The instrument of a name or id. */
    public Instrument instrument(String reference) {
        var instrument = find(
                "instrument", reference, Instrument.class, "/instruments", Instrument::name, i -> true, Instrument::id);
        remembered.add(instrument);
        return instrument;
    }

    /** The calibrator of a name or id. */
    public Calibrator calibrator(String reference) {
        return find(
                "calibrator", reference, Calibrator.class, "/calibrators", Calibrator::name, c -> true, Calibrator::id);
    }

    /** The channel of a name or id. */
    public Channel channel(String reference) {
        return find("channel", reference, Channel.class, "/channels", Channel::name, c -> true, Channel::id);
    }

    /** The account of a name or id; of those with the name, the one that can sign in. */
    public Account account(String reference) {
        return find(
                "account",
                reference,
                Account.class,
                "/accounts",
                Account::name,
                a -> a.retiredAt() == null,
                Account::id);
    }

    /** What was found in this and earlier calls. */
    public Remembered remembered() {
        return remembered;
    }

    /** Whether a reference is a UUID. */
    public static boolean isId(String reference) {
        return reference.length() == 36 && id(reference) != null;
    }

    /** A UUID that a person typed for a thing that has no name. */
    public static UUID id(String noun, String text) {
        return id(noun, noun.replaceFirst("^an? ", "") + " list", text);
    }

    /** As {@link #id(String, String)}, for a thing that another command lists than the one its name tells. */
    public static UUID id(String noun, String listing, String text) {
        var id = id(text);
        if (id == null) {
            throw Failure.usage("\"" + text + "\" is not the id of " + noun + ". Copy it from: panelbook " + listing);
        }
        return id;
    }

    private static @Nullable UUID id(String text) {
        try {
            return UUID.fromString(text);
        } catch (IllegalArgumentException e) {
            return null;
        }
    }

    private <T> T find(
            String noun,
            String reference,
            Class<T> type,
            String collection,
            Function<T, String> path,
            Predicate<T> fits,
            Function<T, UUID> id) {
        if (isId(reference)) {
            return service.get(type, collection + "/" + reference);
        }
        var found =
                candidates(type, collection, reference).stream().filter(fits).toList();
        if (found.size() == 1) {
            return found.get(0);
        }
        throw found.isEmpty() ? missing(noun, reference) : ambiguous(noun, reference, found, path, id);
    }

    private <T> List<T> candidates(Class<T> type, String collection, String reference) {
        var name = reference.substring(reference.lastIndexOf('/') + 1);
        var depth = reference.chars().filter(c -> c == '/').count();
        var query = type == Preset.class && depth >= 2 && !reference.contains("/-/") && !reference.startsWith("-/")
                ? Service.with(collection, "path", reference)
                : Service.with(collection, "name", name);
        return service.pages(type, query, MOST_CANDIDATES).items();
    }

    private static Failure missing(String noun, String reference) {
        return Failure.failed("There is no " + noun.replace('-', ' ') + " \"" + reference + "\". panelbook " + noun
                + " list shows what there is.");
    }

    private static <T> Failure ambiguous(
            String noun, String reference, List<T> found, Function<T, String> path, Function<T, UUID> id) {
        var candidates = found.stream()
                .limit(10)
                .map(thing -> path.apply(thing) + " (" + id.apply(thing) + ")")
                .collect(Collectors.joining(", "));
        return Failure.failed("\"" + reference + "\" names more than one " + noun.replace('-', ' ') + ": " + candidates
                + ". Use the longer name or the id.");
    }
}
