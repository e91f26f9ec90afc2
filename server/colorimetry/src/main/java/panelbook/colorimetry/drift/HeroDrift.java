package panelbook.colorimetry.drift;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.uncertainty.Measured;

/**
 * A follower against its hero since the sign-off of their match: the difference now less the agreed offset, and who of
 * the two moved.
 *
 * @param white residual of the white's chromaticity; empty when one of the four runs lacks white or it is dark
 * @param luminance residual of the white's luminance; empty likewise
 * @param greys residuals of the greys at levels that all four runs reach (see {@link AgreedOffset#of}), dark to bright
 */
public record HeroDrift(
        Optional<ChromaticityResidual> white, Optional<LuminanceResidual> luminance, List<GreyResidual> greys) {
    public HeroDrift {
        greys = List.copyOf(greys);
    }

    /**
     * Compares four runs.
     *
     * @param followerThen the follower's run at sign-off
     * @param heroThen the hero's run at sign-off
     * @param followerNow the follower's run now
     * @param heroNow the hero's run now; patches are matched by signal level, white with white
     * @return the residuals. A meter's systematic error cancels between readings of equal source keys: with one
     *     instrument throughout it cancels per display over time, and a change of instrument puts it back
     */
    public static HeroDrift of(
            MeasuredRun followerThen, MeasuredRun heroThen, MeasuredRun followerNow, MeasuredRun heroNow) {
        List<MeasuredRun> runs = List.of(followerNow, heroNow, followerThen, heroThen);
        List<Measured> whites =
                runs.stream().flatMap(run -> run.white().stream()).toList();
        Optional<Quartet> white = whites.size() == runs.size() ? Optional.of(quartet(whites)) : Optional.empty();
        List<GreyResidual> greys = new ArrayList<>();
        for (Reading reading : followerNow.readings().greys()) {
            GreyLevels.at(reading, followerNow, runs)
                    .map(HeroDrift::quartet)
                    .ifPresent(q -> greys.add(new GreyResidual(
                            GreyLevels.signal(reading, followerNow),
                            reading.patch(),
                            LuminanceResidual.of(q),
                            ChromaticityResidual.of(q))));
        }
        return new HeroDrift(white.map(ChromaticityResidual::of), white.map(LuminanceResidual::of), greys);
    }

    private static Quartet quartet(List<Measured> inOrder) {
        return new Quartet(inOrder.get(0), inOrder.get(1), inOrder.get(2), inOrder.get(3));
    }
}
