package panelbook.colorimetry.signal;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The readings of a run, by patch. Immutable.
 *
 * <p>Guarantees: every code is video in the run's range and depth; no patch comes twice.
 */
public final class Readings {
    private final CodeValues codes;
    private final List<Reading> inOrder;
    private final Map<Patch, Reading> byPatch;

    private Readings(CodeValues codes, List<Reading> inOrder, Map<Patch, Reading> byPatch) {
        this.codes = codes;
        this.inOrder = inOrder;
        this.byPatch = byPatch;
    }

    /**
     * Readings taken in one go.
     *
     * @param codes range and bit depth that the patches were sent in
     * @param readings in the order taken; may be empty
     * @return the readings
     * @throws IllegalArgumentException naming the reading by its place from 1 when a code is no video or a patch repeats
     */
    public static Readings of(CodeValues codes, List<Reading> readings) {
        List<Reading> inOrder = List.copyOf(readings);
        Map<Patch, Reading> byPatch = new HashMap<>(inOrder.size() * 2);
        int least = codes.least();
        int greatest = codes.greatest();
        for (int i = 0; i < inOrder.size(); i++) {
            Patch p = inOrder.get(i).patch();
            if (Math.min(p.red(), Math.min(p.green(), p.blue())) < least
                    || Math.max(p.red(), Math.max(p.green(), p.blue())) > greatest) {
                throw new IllegalArgumentException(
                        "reading " + (i + 1) + ": patch " + p + " is not within " + codes + ", which holds codes "
                                + least + " to " + greatest + "; check range and bit depth of the target");
            }
            if (byPatch.put(p, inOrder.get(i)) != null) {
                throw new IllegalArgumentException(
                        "reading " + (i + 1) + ": patch " + p + " was read before in this run; keep one of the two");
            }
        }
        return new Readings(codes, inOrder, byPatch);
    }

    /**
     * Range and bit depth of the patches.
     *
     * @return as given
     */
    public CodeValues codes() {
        return codes;
    }

    /**
     * All readings.
     *
     * @return in the order taken
     */
    public List<Reading> all() {
        return inOrder;
    }

    /**
     * The reading of a patch.
     *
     * @param patch in this run's code values
     * @return empty when the run lacks it
     */
    public Optional<Reading> at(Patch patch) {
        return Optional.ofNullable(byPatch.get(patch));
    }

    /**
     * The reading at the same signal level, whatever code values it was sent in.
     *
     * @param patch in the other's code values
     * @param patchCodes range and bit depth of {@code patch}
     * @return the first reading whose patch, written in the coarser of the two code values, is the given one: the two
     *     signals then differ by half a code of the coarser at most; else empty
     */
    public Optional<Reading> atLevelOf(Patch patch, CodeValues patchCodes) {
        if (patchCodes.equals(codes)) {
            return at(patch);
        }
        if (codes.steps() <= patchCodes.steps()) {
            return codes.nearest(patch, patchCodes).flatMap(this::at);
        }
        Optional<Patch> wanted = Optional.of(patch);
        return inOrder.stream()
                .filter(r -> patchCodes.nearest(r.patch(), codes).equals(wanted))
                .findFirst();
    }

    /**
     * The reading of white: all channels at the code of signal 1.
     *
     * @return empty when the run lacks it
     */
    public Optional<Reading> white() {
        return at(Patch.grey(codes.white()));
    }

    /**
     * The reading of black: all channels at the code of signal 0.
     *
     * @return empty when the run lacks it
     */
    public Optional<Reading> black() {
        return at(Patch.grey(codes.black()));
    }

    /**
     * The readings of greys, black and white among them.
     *
     * @return from dark to bright by code
     */
    public List<Reading> greys() {
        return inOrder.stream()
                .filter(r -> r.patch().isGrey())
                .sorted(Comparator.comparingInt(r -> r.patch().red()))
                .toList();
    }

    /**
     * The brightest reading of one primary alone.
     *
     * @param channel 0 red, 1 green, 2 blue
     * @return the reading with the greatest code in that channel and black in the others; empty when there is none
     */
    public Optional<Reading> primary(int channel) {
        return inOrder.stream()
                .filter(r -> isPrimary(r.patch(), channel))
                .max(Comparator.comparingInt(r -> code(r.patch(), channel)));
    }

    private boolean isPrimary(Patch patch, int channel) {
        return code(patch, channel) > codes.black()
                && code(patch, (channel + 1) % 3) == codes.black()
                && code(patch, (channel + 2) % 3) == codes.black();
    }

    private static int code(Patch patch, int channel) {
        return channel == 0 ? patch.red() : channel == 1 ? patch.green() : patch.blue();
    }
}
