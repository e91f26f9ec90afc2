package panelbook.app.mending;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import panelbook.app.rest.Refusal;
import panelbook.wire.FieldProblem;
import panelbook.wire.MergerDraft.PresetPair;
import panelbook.wire.Preset;

/** Which preset of a duplicate is which of the display that is kept: as given, else by name. */
final class PresetPairs {

    private final Map<UUID, Preset> ofDuplicate;
    private final Map<UUID, Preset> ofKept;
    private final List<FieldProblem> problems = new ArrayList<>();

    private PresetPairs(List<Preset> duplicates, List<Preset> kept) {
        this.ofDuplicate = byId(duplicates);
        this.ofKept = byId(kept);
    }

    private static Map<UUID, Preset> byId(List<Preset> presets) {
        return presets.stream().collect(Collectors.toMap(Preset::id, Function.identity()));
    }

    /**
     * The presets of the duplicate with their counterparts.
     *
     * @param given pairs that a person gave
     * @param used presets of the duplicate that something in the book rests on: those without a counterpart are refused
     * @throws Refusal with all that does not fit, and what to do
     */
    static Map<UUID, UUID> of(List<Preset> duplicates, List<Preset> kept, List<PresetPair> given, Set<UUID> used) {
        var pairs = new PresetPairs(duplicates, kept);
        var found = pairs.given(given);
        for (var preset : duplicates) {
            if (!found.containsKey(preset.id()) && used.contains(preset.id())) {
                pairs.byName(preset, found.values()).ifPresent(to -> found.put(preset.id(), to));
            }
        }
        if (!pairs.problems.isEmpty()) {
            throw Refusal.invalid(pairs.problems);
        }
        return found;
    }

    private Map<UUID, UUID> given(List<PresetPair> given) {
        var found = new HashMap<UUID, UUID>();
        var taken = new HashSet<UUID>();
        for (var i = 0; i < given.size(); i++) {
            var pair = given.get(i);
            var from = ofDuplicate.get(pair.from());
            var to = ofKept.get(pair.to());
            if (from == null) {
                problem("/presets/" + i + "/from", "The duplicate has no preset " + pair.from() + ".");
            } else if (to == null || to.retiredAt() != null) {
                problem("/presets/" + i + "/to", "The display to keep has no preset " + pair.to() + " in use.");
            } else if (!from.targetId().equals(to.targetId())) {
                problem("/presets/" + i, apart(from, to));
            } else if (found.put(from.id(), to.id()) != null || !taken.add(to.id())) {
                problem("/presets/" + i, "One of its presets stands in another pair already.");
            }
        }
        return found;
    }

    private Optional<UUID> byName(Preset preset, Collection<UUID> taken) {
        var to = ofKept.values().stream()
                .filter(other -> other.name().equals(preset.name()) && other.retiredAt() == null)
                .findFirst();
        if (to.isEmpty()) {
            problem(
                    "/presets",
                    "The display to keep has no preset \"" + preset.name()
                            + "\" in use: give the pair, or add a preset " + "for " + preset.target() + " to it.");
            return Optional.empty();
        }
        if (!to.get().targetId().equals(preset.targetId())) {
            problem("/presets", apart(preset, to.get()));
            return Optional.empty();
        }
        if (taken.contains(to.get().id())) {
            problem(
                    "/presets",
                    "Another preset of the duplicate was given for \""
                            + to.get().name() + "\", which by its name is \"" + preset.name()
                            + "\" of the duplicate: give that pair, too.");
            return Optional.empty();
        }
        return to.map(Preset::id);
    }

    private void problem(String pointer, String detail) {
        problems.add(new FieldProblem(pointer, detail));
    }

    private static String apart(Preset from, Preset to) {
        return "\"" + from.name() + "\" of the duplicate is for " + from.target() + ", \"" + to.name()
                + "\" of the display to keep for " + to.target()
                + ": give a pair of presets for one target, or add one to the display to keep.";
    }
}
