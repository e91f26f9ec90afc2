package panelbook.colorimetry.drift;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Propagation;

/**
 * A preset now against its baseline, each figure now minus then. What is absent, {@link #gaps} explains.
 *
 * @param peakLuminancePercent change of white luminance, percent of the baseline's
 * @param white move of the white in u'v'
 * @param black change of black luminance, cd/m2
 * @param contrastPercent change of white over black, percent of the baseline's
 * @param largest the greatest delta E ITP over the patches that both runs hold; of many patches the greatest is also the
 *     one that noise favoured
 * @param gaps why figures are absent
 */
public record OwnDrift(
        Optional<Estimate> peakLuminancePercent,
        Optional<UvShift> white,
        Optional<Estimate> black,
        Optional<Estimate> contrastPercent,
        Optional<PatchDrift> largest,
        Set<Gap> gaps) {

    /** Why a figure is absent. */
    public enum Gap {
        /** One of the runs has no white patch, or a dark one: no peak, no white, no contrast. */
        WHITE_NOT_MEASURED,
        /** One of the runs has no black patch: no black, no contrast. */
        BLACK_NOT_MEASURED,
        /** Black reads no more than three times the instrument's floor in one of the runs: no contrast. */
        BLACK_NOT_ABOVE_FLOOR,
        /** The runs share no patch: no largest difference. */
        NO_COMMON_PATCH
    }

    public OwnDrift {
        gaps = Set.copyOf(gaps);
    }

    /**
     * Compares two runs of one preset.
     *
     * @param baseline the as-left run in force
     * @param now the later run; patches are matched by signal level
     * @return the drift; readings of equal source keys carry their repeatability only
     */
    public static OwnDrift of(MeasuredRun baseline, MeasuredRun now) {
        Optional<List<Measured>> whites = both(now.white(), baseline.white());
        Optional<List<Measured>> blacks = both(black(now), black(baseline));
        Optional<List<Measured>> litBlacks = both(now.litBlack(), baseline.litBlack());
        Optional<PatchDrift> largest = largest(baseline, now);
        return new OwnDrift(
                whites.map(w -> LogRatio.percent(LogRatio.of(w, 1, -1))),
                whites.map(w -> UvShift.of(w, 1, -1)),
                blacks.map(OwnDrift::difference),
                whites.flatMap(w -> litBlacks.map(b -> contrast(w, b))),
                largest,
                gaps(whites.isPresent(), blacks.isPresent(), litBlacks.isPresent(), largest.isPresent()));
    }

    private static Set<Gap> gaps(boolean white, boolean black, boolean litBlack, boolean commonPatch) {
        Set<Gap> gaps = EnumSet.noneOf(Gap.class);
        if (!white) {
            gaps.add(Gap.WHITE_NOT_MEASURED);
        }
        if (!litBlack) {
            gaps.add(black ? Gap.BLACK_NOT_ABOVE_FLOOR : Gap.BLACK_NOT_MEASURED);
        }
        if (!commonPatch) {
            gaps.add(Gap.NO_COMMON_PATCH);
        }
        return gaps;
    }

    private static Optional<Measured> black(MeasuredRun run) {
        return run.readings().black().map(run::measured);
    }

    private static Optional<List<Measured>> both(Optional<Measured> now, Optional<Measured> then) {
        return now.flatMap(n -> then.map(t -> List.of(n, t)));
    }

    private static Estimate difference(List<Measured> nowThen) {
        Measured now = nowThen.get(0);
        Measured then = nowThen.get(1);
        double uncertainty = LinearCombination.standardUncertainty(List.of(
                now.uncertainty().ofLuminance(1, now.xyz().y()),
                then.uncertainty().ofLuminance(-1, then.xyz().y())));
        return new Estimate(now.xyz().y() - then.xyz().y(), uncertainty);
    }

    private static Estimate contrast(List<Measured> whites, List<Measured> blacks) {
        List<Measured> all = List.of(whites.get(0), blacks.get(0), whites.get(1), blacks.get(1));
        return LogRatio.percent(LogRatio.of(all, 1, -1, -1, 1));
    }

    private static Optional<PatchDrift> largest(MeasuredRun baseline, MeasuredRun now) {
        Readings then = baseline.readings();
        double greatest = -1;
        Reading worst = null;
        Reading worstThen = null;
        for (Reading reading : now.readings().all()) {
            Reading before =
                    then.atLevelOf(reading.patch(), now.readings().codes()).orElse(null);
            double difference = before == null ? -1 : ColourDifference.itp(reading.xyz(), before.xyz());
            if (difference > greatest) {
                greatest = difference;
                worst = reading;
                worstThen = before;
            }
        }
        if (worst == null || worstThen == null) {
            return Optional.empty();
        }
        return Optional.of(
                new PatchDrift(worst.patch(), Propagation.itp(now.measured(worst), baseline.measured(worstThen))));
    }
}
