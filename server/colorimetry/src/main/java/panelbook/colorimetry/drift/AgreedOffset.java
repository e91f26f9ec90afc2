package panelbook.colorimetry.drift;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.Measured;

/**
 * The measured difference follower minus hero of two runs that belong together: at sign-off it is what the operator
 * agreed to, at any later time the raw difference.
 *
 * @param white follower minus hero of the white in u'v'; empty when a run lacks white or it is dark
 * @param luminance ln(follower / hero) of the white luminance; empty likewise
 * @param greys the greys at levels that both reach, from dark to bright
 */
public record AgreedOffset(Optional<UvShift> white, Optional<Estimate> luminance, List<Grey> greys) {
    public AgreedOffset {
        greys = List.copyOf(greys);
    }

    /**
     * The offset of one grey.
     *
     * @param signal level, 0 for black, 1 for white
     * @param luminance ln(follower / hero)
     * @param chromaticity follower minus hero in u'v'
     */
    public record Grey(double signal, Estimate luminance, UvShift chromaticity) {}

    /**
     * The difference of two runs.
     *
     * @param follower the follower's run
     * @param hero the hero's run; patches are matched by signal level
     * @return the offset. A level is reached by both when both runs hold it, neither reading lies below three times
     *     its instrument's floor, and neither display is at the top of its range there (98 % of its own white, where
     *     measured)
     */
    public static AgreedOffset of(MeasuredRun follower, MeasuredRun hero) {
        Optional<List<Measured>> whites =
                follower.white().flatMap(f -> hero.white().map(h -> List.of(f, h)));
        List<Grey> greys = new ArrayList<>();
        for (Reading reading : follower.readings().greys()) {
            GreyLevels.at(reading, follower, List.of(follower, hero))
                    .ifPresent(pair -> greys.add(new Grey(
                            GreyLevels.signal(reading, follower), LogRatio.of(pair, 1, -1), UvShift.of(pair, 1, -1))));
        }
        return new AgreedOffset(whites.map(w -> UvShift.of(w, 1, -1)), whites.map(w -> LogRatio.of(w, 1, -1)), greys);
    }
}
