package panelbook.colorimetry.verification;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import panelbook.colorimetry.signal.Patch;

/**
 * One metric over the patches of a run that have it, by magnitude.
 *
 * @param patches how many patches have the metric, at least 1
 * @param mean arithmetic mean
 * @param percentile95 the least value that at least 95 % of the values do not exceed (nearest rank: definition 1 of
 *     Hyndman and Fan, The American Statistician 50 (1996) 361), so it is always the value of a patch
 * @param maximum the greatest value
 * @param worst the patch of the greatest value; the first one taken if several share it
 */
public record Statistic(int patches, double mean, double percentile95, double maximum, Patch worst) {

    static Optional<Statistic> of(List<PatchVerification> patches, Function<PatchVerification, OptionalDouble> metric) {
        double[] values = new double[patches.size()];
        int count = 0;
        double sum = 0;
        double maximum = -1;
        Patch worst = null;
        for (PatchVerification p : patches) {
            OptionalDouble of = metric.apply(p);
            if (of.isPresent()) {
                double value = Math.abs(of.getAsDouble());
                values[count++] = value;
                sum += value;
                if (value > maximum) {
                    maximum = value;
                    worst = p.patch();
                }
            }
        }
        if (worst == null) {
            return Optional.empty();
        }
        return Optional.of(
                new Statistic(count, sum / count, nearestRank95(Arrays.copyOf(values, count)), maximum, worst));
    }

    private static double nearestRank95(double[] values) {
        Arrays.sort(values);
        // in whole numbers, since 0.95 * 20 must be 19 and not a little more
        return values[(values.length * 95 + 99) / 100 - 1];
    }
}
