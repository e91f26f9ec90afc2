package panelbook.colorimetry.correction;

/**
 * Why four pairs of readings make no correction.
 *
 * @param reason of a closed list
 * @param message where and what to do, for a person
 */
public record Fault(Reason reason, String message) {

    /** The closed list. */
    public enum Reason {
        /** A run lacks a patch of one primary alone, or white, that the other holds. */
        PATCH_MISSING,
        /** A reading holds no light, so that it has no chromaticity. */
        NO_LIGHT,
        /** The primaries span next to no area: noise would be multiplied. */
        PRIMARIES_ON_A_LINE,
        /** White is no mixture of the three primaries. */
        WHITE_OUTSIDE_PRIMARIES,
        /** The two instruments differ by more than any meter errs: not the same patch, or not the same display. */
        PAIR_DISAGREES
    }
}
