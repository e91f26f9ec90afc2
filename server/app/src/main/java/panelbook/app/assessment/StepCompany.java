package panelbook.app.assessment;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import panelbook.colorimetry.control.Move.Likeness;

/**
 * What other displays did where one stepped.
 *
 * @param step of the display that is asked about
 * @param alike others that stepped alike
 * @param apart others that did not, or otherwise
 * @param untold others that were measured on both sides and whose uncertainty leaves it open
 */
record StepCompany(FoundStep step, List<FoundStep> alike, List<FoundStep> apart, List<FoundStep> untold) {

    /** A step and what every other display of some did there; those not measured on both sides are left out. */
    static StepCompany of(FoundStep step, Collection<StepSeries> others) {
        var display = step.series().preset().displayId();
        var byLikeness = others.stream()
                .filter(other -> !other.preset().displayId().equals(display))
                .sorted(Comparator.comparing(other -> other.preset().path()))
                .flatMap(other -> other.at(step).stream())
                .collect(Collectors.groupingBy(there -> step.size().like(there.size())));
        return new StepCompany(
                step,
                byLikeness.getOrDefault(Likeness.ALIKE, List.of()),
                byLikeness.getOrDefault(Likeness.APART, List.of()),
                byLikeness.getOrDefault(Likeness.UNTOLD, List.of()));
    }

    /** Whether all displays that tell stepped alike, two or more and most of those measured. */
    boolean allAlike() {
        var told = displays(alike).size();
        return told >= 1 && apart.isEmpty() && told >= displays(untold).size();
    }

    /** The one asked about and those that stepped alike. */
    List<FoundStep> steppers() {
        return Stream.concat(Stream.of(step), alike.stream()).toList();
    }

    static Set<UUID> displays(Collection<FoundStep> steps) {
        return steps.stream().map(one -> one.series().preset().displayId()).collect(Collectors.toSet());
    }

    /** What this says of where to look, for people. */
    String pointing() {
        if (allAlike()) {
            return "The other displays of the room stepped alike then (" + names(alike, true)
                    + "): that points at the feed or the meter, not at the displays.";
        }
        if (alike.isEmpty() && apart.isEmpty()) {
            return "No other display of the room tells whether it stepped then as well.";
        }
        if (alike.isEmpty()) {
            return "Nothing else in the room stepped so then (" + names(apart, false)
                    + "): that points at this display, somebody in its menu or a part of it.";
        }
        return "Some displays of the room stepped alike then (" + names(alike, true) + "), others did not ("
                + names(apart, false) + "): look at what those that stepped share.";
    }

    private static String names(List<FoundStep> steps, boolean amounts) {
        return steps.stream()
                .map(one -> name(one) + (amounts ? " " + one.amount() : ""))
                .distinct()
                .collect(Collectors.joining(", "));
    }

    /** Display and preset: the room is known. */
    private static String name(FoundStep one) {
        var path = one.series().preset().path().split("/", 3);
        return path.length == 3 ? path[2] : one.series().preset().path();
    }
}
