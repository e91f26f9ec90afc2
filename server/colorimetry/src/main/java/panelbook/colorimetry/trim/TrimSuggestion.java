package panelbook.colorimetry.trim;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import panelbook.colorimetry.uncertainty.Estimate;

/**
 * Clicks that bring a follower nearest to where it should be.
 *
 * @param clicks change of each control that may be turned, 0 included
 * @param rest what is expected to be left at each grey
 * @param costBefore distance before, in squares of tolerances summed over greys and figures
 * @param costAfter expected distance after, likewise, what is not known of the clicks' effects included
 * @param whyNotMore what stands in the way of a smaller rest; empty when nothing does by much
 * @param effectUnknown controls left out, since no trial tells what they do at all the greys
 */
public record TrimSuggestion(
        Map<Control, Integer> clicks,
        List<Rest> rest,
        double costBefore,
        double costAfter,
        List<WhyNot> whyNotMore,
        List<Control> effectUnknown) {

    /**
     * What is expected to be left at one grey: wanted less reached.
     *
     * @param level which grey
     * @param u in u'
     * @param v in v'
     * @param lnLuminance in ln luminance
     */
    public record Rest(GreyLevel level, Estimate u, Estimate v, Estimate lnLuminance) {}

    /**
     * One thing in the way.
     *
     * @param reason of a closed list
     * @param control which one, where the reason is one control's
     * @param wouldSave how much smaller the distance could be without it, in squares of tolerances; of {@link
     *     Reason#OUT_OF_REACH} what would be left even so
     */
    public record WhyNot(Reason reason, Optional<Control> control, double wouldSave) {}

    /** The closed list. */
    public enum Reason {
        /** The control ends here. */
        BOUND,
        /** A gain further above its calibrated setting would clip its channel. */
        GAIN_WOULD_CLIP,
        /** Black would rise beyond its tolerance. */
        FLOOR_WOULD_RISE,
        /** There are no half clicks. */
        WHOLE_CLICKS,
        /** What a click does is not known well: a reading after the next trim tells more. */
        EFFECT_UNSURE,
        /** No setting of these controls leads there. */
        OUT_OF_REACH
    }

    public TrimSuggestion {
        clicks = Map.copyOf(clicks);
        rest = List.copyOf(rest);
        whyNotMore = List.copyOf(whyNotMore);
        effectUnknown = List.copyOf(effectUnknown);
    }

    /**
     * Whether the controls should stay as they are.
     *
     * @return true when no click makes it better
     */
    public boolean isNothingToDo() {
        return clicks.values().stream().allMatch(n -> n == 0);
    }
}
