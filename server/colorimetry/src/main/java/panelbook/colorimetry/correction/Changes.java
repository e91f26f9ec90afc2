package panelbook.colorimetry.correction;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;

/**
 * A set of readings in two versions.
 *
 * @param all in the order of the readings; may be empty
 */
public record Changes(List<Change> all) {
    public Changes {
        all = List.copyOf(all);
    }

    /**
     * What a new correction would change.
     *
     * @param old the correction in force; {@link FourColourMatrix#NONE} when there is none
     * @param replacement the one to take its place
     * @param raw readings of the field meter as it gave them
     * @return each patch as the old one and as the new one gives it
     */
    public static Changes whenReplaced(FourColourMatrix old, FourColourMatrix replacement, List<Reading> raw) {
        return new Changes(raw.stream()
                .map(r -> new Change(
                        r.patch(),
                        old.correct(r.xyz()).xyz(),
                        replacement.correct(r.xyz()).xyz()))
                .toList());
    }

    /**
     * How far corrected readings still are from the reference's: the check of a correction on patches that it was not
     * made from, or on another display.
     *
     * @param correction to be checked; {@link FourColourMatrix#NONE} for the meter as it is
     * @param reference run of the reference instrument
     * @param field run of the field meter on the same display, raw
     * @return before is the reference, after the corrected field meter, for patches at levels that both runs hold
     */
    public static Changes fromReference(FourColourMatrix correction, Readings reference, Readings field) {
        List<Change> all = new ArrayList<>();
        for (Reading r : reference.all()) {
            field.atLevelOf(r.patch(), reference.codes())
                    .ifPresent(f -> all.add(new Change(
                            r.patch(), r.xyz(), correction.correct(f.xyz()).xyz())));
        }
        return new Changes(all);
    }

    /**
     * The patch that moves furthest.
     *
     * @return by delta E ITP; empty when there are no readings
     */
    public Optional<Change> largest() {
        return all.stream().max(Comparator.comparingDouble(Change::deltaEItp));
    }

    /**
     * How far the patches move on average.
     *
     * @return mean delta E ITP; empty when there are no readings
     */
    public OptionalDouble meanDeltaEItp() {
        return all.stream().mapToDouble(Change::deltaEItp).average();
    }

    /**
     * The greatest move of a chromaticity.
     *
     * @return delta u'v'; empty when no patch has a chromaticity in both versions
     */
    public OptionalDouble largestDeltaUv() {
        return all.stream()
                .map(Change::deltaUvDistance)
                .filter(OptionalDouble::isPresent)
                .mapToDouble(OptionalDouble::getAsDouble)
                .max();
    }
}
