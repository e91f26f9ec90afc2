package panelbook.app.matching;

import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;
import panelbook.wire.Condition;
import panelbook.wire.Holds;
import panelbook.wire.Requirement;

/** Compares the sequential contrasts, white over black, of the halves of a pair. */
@Component
class Contrasts {

    /**
     * How far contrasts may lie apart before the signal path is to be looked at: two doublings, four times. A range fault
     * crushes or lifts black by more than that on any display whose black can be measured; panels of one technology differ
     * by less. House rule, no published source.
     */
    static final double MOST_DOUBLINGS = 2;

    /** Three times the meter's floor is the usual limit of detection, common practice. */
    private static final double DETECTION = 3;

    private final RunBook runs;
    private final MeasuredRuns measured;

    Contrasts(RunBook runs, MeasuredRuns measured) {
        this.runs = runs;
        this.measured = measured;
    }

    /** Whether the contrasts of both do not disagree by far, by the latest run of each that shows how it stands. */
    Condition compared(Pair pair) {
        var latest = latest(pair);
        var follower = contrast(latest.get(pair.follower().presetId()));
        var hero = contrast(latest.get(pair.hero().presetId()));
        if (follower == null || hero == null) {
            return new Condition(
                    Requirement.CONTRAST,
                    Holds.UNKNOWN,
                    "The contrast of "
                            + (follower == null ? pair.follower() : pair.hero()).path()
                            + " is not known: its latest run holds no white, or no black that the meter can tell from"
                            + " nothing.");
        }
        return compared(pair, follower, hero, readWith(latest.values()));
    }

    private static String readWith(Collection<RunMeasured> runs) {
        var names = RunMeasured.correctionNames(runs.toArray(new RunMeasured[0]));
        return names.isEmpty() ? "" : ", read with " + String.join(" and ", names);
    }

    private static Condition compared(Pair pair, double follower, double hero, String readWith) {
        var figures = String.format(
                        Locale.ROOT,
                        "The contrast of the follower is %s:1 and that of the hero %s:1",
                        rounded(follower),
                        rounded(hero))
                + readWith;
        if (Math.abs(Math.log(follower / hero)) <= MOST_DOUBLINGS * Math.log(2)) {
            return new Condition(Requirement.CONTRAST, Holds.YES, figures + ".");
        }
        var technologies = pair.follower().panelTechnology().equals(pair.hero().panelTechnology())
                ? ""
                : " Panels of " + pair.follower().panelTechnology() + " and "
                        + pair.hero().panelTechnology() + " may differ by nature.";
        return new Condition(
                Requirement.CONTRAST,
                Holds.NO,
                figures + ", far apart. Rule out a fault of the signal path before any trim: compare the ramps."
                        + technologies);
    }

    private Map<UUID, RunMeasured> latest(Pair pair) {
        var presets =
                Map.of(pair.follower().presetId(), pair.follower(), pair.hero().presetId(), pair.hero());
        var ids = runs.latestOf(presets.keySet()).stream().map(StoredRun::id).toList();
        return measured.greysOf(ids, presets).values().stream()
                .collect(Collectors.toMap(run -> run.run().presetId(), run -> run));
    }

    private static @Nullable Double contrast(@Nullable RunMeasured run) {
        if (run == null) {
            return null;
        }
        var floor = DETECTION * run.measured().uncertainty().luminanceFloor();
        var white = run.readings().white().filter(reading -> reading.luminance() > floor);
        var black = run.readings().black().filter(reading -> reading.luminance() > floor);
        return white.isEmpty() || black.isEmpty()
                ? null
                : (Double) (white.get().luminance() / black.get().luminance());
    }

    /** Two digits tell enough of a contrast. */
    private static long rounded(double contrast) {
        var unit = Math.pow(10, Math.max(0, Math.floor(Math.log10(contrast)) - 1));
        return Math.round(contrast / unit) * (long) unit;
    }
}
