package panelbook.app.alerts;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import panelbook.wire.AlertCause;

/**
 * Which open alert explains which. Causes lie at an instrument, at the feed of a room, at a hero or at a follower, and act
 * downwards. House policy, no published source:
 *
 * <ul>
 *   <li>On one preset a step explains that the picture moved, and either explains that it is off its target.
 *   <li>A step at an instrument or a room explains steps, movements and misses of the target on the presets that it names,
 *       and the one at the instrument a step of a room all of whose presets it names.
 *   <li>A hero's step explains the steps of followers that it names, and a hero's new baseline that matches of a follower
 *       that it names are in question. A follower's own movement is never explained by its hero: who moved was told apart
 *       before either alert was opened, and what the hero moved is said by the hero's alert only.
 *   <li>That recalibration is due or that a certificate expired explains nothing, and nothing explains it.
 * </ul>
 *
 * Whatever explains another lies higher, or on the same preset and is the stronger cause: so there are no cycles.
 */
final class CauseTree {

    // the higher place first, then the stronger cause; the subject settles the rest, so that time and chance have no
    // say
    private static final Comparator<OpenCause> HIGHEST = Comparator.comparing(OpenCause::place)
            .thenComparing(OpenCause::cause, Comparator.comparingInt(CauseTree::strength))
            .thenComparing(OpenCause::subjectId, Comparator.reverseOrder());

    private CauseTree() {}

    /**
     * What holds back what: each alert that another explains, with the highest one that explains it, through others or at
     * once. That one is itself held back by none.
     *
     * @param open open alerts, in any order
     */
    static Map<UUID, UUID> holders(Collection<OpenCause> open) {
        var roots = new HashMap<UUID, OpenCause>();
        open.forEach(one -> root(one, open, roots));
        var holders = new HashMap<UUID, UUID>();
        roots.forEach((id, root) -> {
            if (!root.id().equals(id)) {
                holders.put(id, root.id());
            }
        });
        return holders;
    }

    /** Ends, since what explains stands higher each time. */
    private static OpenCause root(OpenCause one, Collection<OpenCause> open, Map<UUID, OpenCause> known) {
        var found = known.get(one.id());
        if (found == null) {
            found = highestAbove(one, open, known).orElse(one);
            known.put(one.id(), found);
        }
        return found;
    }

    private static Optional<OpenCause> highestAbove(
            OpenCause one, Collection<OpenCause> open, Map<UUID, OpenCause> known) {
        return open.stream()
                .filter(other -> explains(other, one))
                .map(other -> root(other, open, known))
                .max(HIGHEST);
    }

    /** Whether one open alert explains another at once, not through a third. */
    static boolean explains(OpenCause one, OpenCause other) {
        if (one.place().isPreset() && one.subjectId().equals(other.subjectId())) {
            return strength(one.cause()) > strength(other.cause()) && strength(other.cause()) > 0;
        }
        return one.place().compareTo(other.place()) > 0 && below(one).contains(other.cause()) && one.covers(other);
    }

    /** What a cause can bring about at places below its own. */
    private static List<AlertCause> below(OpenCause one) {
        return switch (one.cause()) {
            case STEPPED ->
                one.place().isPreset()
                        ? List.of(AlertCause.STEPPED)
                        : List.of(AlertCause.STEPPED, AlertCause.MOVED, AlertCause.OFF_TARGET);
            case MATCH_IN_QUESTION -> List.of(AlertCause.MATCH_IN_QUESTION);
            case MOVED, OFF_TARGET, RECALIBRATION_DUE, CERTIFICATE_EXPIRED -> List.of();
        };
    }

    /** On one preset the stronger cause explains the weaker; 0 for causes that have no part in that. */
    private static int strength(AlertCause cause) {
        return switch (cause) {
            case STEPPED -> 3;
            case MOVED -> 2;
            case OFF_TARGET -> 1;
            case RECALIBRATION_DUE, CERTIFICATE_EXPIRED, MATCH_IN_QUESTION -> 0;
        };
    }
}
