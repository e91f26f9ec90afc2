package panelbook.colorimetry.verification;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/**
 * How well the greys keep to the target.
 *
 * @param greys how many greys lie at or above the level that the verification was asked for, white among them
 * @param luminanceErrorPercent the greatest error of luminance, percent, with sign
 * @param deltaUv the greatest delta u'v'; empty when no such grey gave light enough to have a chromaticity
 */
public record GreyTracking(int greys, Worst luminanceErrorPercent, Optional<Worst> deltaUv) {

    static Optional<GreyTracking> of(List<PatchVerification> aboveFloor) {
        List<PatchVerification> greys =
                aboveFloor.stream().filter(p -> p.patch().isGrey()).toList();
        return worst(greys, PatchVerification::luminanceErrorPercent)
                .map(luminance -> new GreyTracking(greys.size(), luminance, worst(greys, PatchVerification::deltaUv)));
    }

    private static Optional<Worst> worst(
            List<PatchVerification> patches, Function<PatchVerification, OptionalDouble> metric) {
        return patches.stream()
                .flatMap(p -> metric.apply(p).stream().mapToObj(value -> new Worst(value, p.patch())))
                .max(Comparator.comparingDouble(w -> Math.abs(w.value())));
    }
}
