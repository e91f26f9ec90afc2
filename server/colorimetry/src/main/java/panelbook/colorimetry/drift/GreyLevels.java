package panelbook.colorimetry.drift;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.uncertainty.Measured;

/** Greys at levels that several runs reach. */
final class GreyLevels {
    /** From this share of its white on, a display is taken to be at the top of its range. */
    private static final double TOP = 0.98;

    private GreyLevels() {}

    /** The level of a grey between black and white. */
    static double signal(Reading grey, MeasuredRun run) {
        return run.readings().codes().toSignal(grey.patch().red());
    }

    /** The grey in each of the runs, in their order; empty when one lacks it or does not reach it. */
    static Optional<List<Measured>> at(Reading grey, MeasuredRun from, List<MeasuredRun> runs) {
        List<Measured> found = new ArrayList<>();
        for (MeasuredRun run : runs) {
            run.readings()
                    .atLevelOf(grey.patch(), from.readings().codes())
                    .filter(r -> run.isLit(r) && isBelowTop(r, run))
                    .ifPresent(r -> found.add(run.measured(r)));
        }
        return found.size() == runs.size() ? Optional.of(found) : Optional.empty();
    }

    private static boolean isBelowTop(Reading reading, MeasuredRun run) {
        double white = run.readings().white().map(Reading::luminance).orElse(Double.POSITIVE_INFINITY);
        return reading.luminance() < TOP * white;
    }
}
