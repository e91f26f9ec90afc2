package panelbook.app.assessment;

import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.ColourDifference;

/** How far a display went from one run to another, to tell which of several states it stands in. */
final class Movement {

    private Movement() {}

    /** The largest ΔE ITP of the greys that both runs hold; greater than any when they hold none in common. */
    static double between(RunMeasured then, RunMeasured now) {
        return now.readings().greys().stream()
                .flatMap(reading -> then.readings().at(reading.patch()).stream()
                        .map(before -> ColourDifference.itp(reading.xyz(), before.xyz())))
                .mapToDouble(Double::doubleValue)
                .max()
                .orElse(Double.MAX_VALUE);
    }
}
