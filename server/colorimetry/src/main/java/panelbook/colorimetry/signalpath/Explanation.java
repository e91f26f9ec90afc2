package panelbook.colorimetry.signalpath;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.signal.Target;

/**
 * What may have happened to the signal.
 *
 * @param kind of a closed list
 * @param eotf what the display stands in; present with {@link Kind#WRONG_EOTF} alone
 */
public record Explanation(Kind kind, Optional<KnownEotf> eotf) {

    /** The closed list. What each leaves free is told in {@link SignalPath}. */
    public enum Kind {
        /** The display shows what the target asks, whatever its own peak and black. */
        AS_INTENDED,
        /** A full range signal was squeezed to narrow, and the display takes it as it was: lifted blacks, dim whites. */
        FULL_SQUEEZED_TO_NARROW,
        /** A narrow range signal was expanded to full, and the display takes it as it was: crushed blacks, clipped whites. */
        NARROW_EXPANDED_AS_FULL,
        /** The display follows another transfer function. */
        WRONG_EOTF,
        /** Right from black up to a luminance well below the target's peak, and flat or nearly so above. */
        PEAK_LIMITED
    }

    public Explanation {
        if (eotf.isPresent() != (kind == Kind.WRONG_EOTF)) {
            throw new IllegalArgumentException(
                    "an EOTF goes with a wrong EOTF and with nothing else, but kind is " + kind);
        }
    }

    /**
     * An explanation without an EOTF.
     *
     * @param kind any but {@link Kind#WRONG_EOTF}
     * @return the explanation
     */
    public static Explanation of(Kind kind) {
        return new Explanation(kind, Optional.empty());
    }

    /**
     * A wrong EOTF.
     *
     * @param shown what the display stands in
     * @return the explanation
     */
    public static Explanation wrong(KnownEotf shown) {
        return new Explanation(Kind.WRONG_EOTF, Optional.of(shown));
    }

    /**
     * All that may happen on the way of a target's signal.
     *
     * @param target what was asked for
     * @return as intended first; the target's own EOTF is not among the wrong ones
     */
    public static List<Explanation> allFor(Target target) {
        List<Explanation> all = new ArrayList<>();
        all.add(of(Kind.AS_INTENDED));
        all.add(of(Kind.FULL_SQUEEZED_TO_NARROW));
        all.add(of(Kind.NARROW_EXPANDED_AS_FULL));
        all.add(of(Kind.PEAK_LIMITED));
        for (KnownEotf other : KnownEotf.values()) {
            if (!other.is(target.eotf())) {
                all.add(wrong(other));
            }
        }
        return List.copyOf(all);
    }

    /**
     * Whether something is wrong.
     *
     * @return false for as intended
     */
    public boolean isFault() {
        return kind != Kind.AS_INTENDED;
    }

    /**
     * Where to look first.
     *
     * @return a key for a text
     */
    public FirstCheck firstCheck() {
        return switch (kind) {
            case AS_INTENDED -> FirstCheck.NOTHING;
            case FULL_SQUEEZED_TO_NARROW -> FirstCheck.OUTPUT_RANGE_OF_SOURCE;
            case NARROW_EXPANDED_AS_FULL -> FirstCheck.CONVERTER_OR_INPUT_RANGE_OF_DISPLAY;
            case WRONG_EOTF -> FirstCheck.EOTF_OF_PRESET;
            case PEAK_LIMITED -> FirstCheck.LUMINANCE_LIMITER_OF_PRESET;
        };
    }
}
