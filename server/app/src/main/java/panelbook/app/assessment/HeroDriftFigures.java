package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import panelbook.app.matching.Agreement;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.drift.Attribution;
import panelbook.colorimetry.drift.ChromaticityResidual;
import panelbook.colorimetry.drift.GreyResidual;
import panelbook.colorimetry.drift.HeroDrift;
import panelbook.colorimetry.drift.LuminanceResidual;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.verification.Verification;
import panelbook.wire.Metric;
import panelbook.wire.ReadingRef;

/** The figures of a follower against its hero: what is left of the difference once the agreed offset is taken off. */
final class HeroDriftFigures {

    /** One-sided 95 %. */
    private static final double SIGNIFICANT = 1.645;

    private final Agreement agreement;
    private final RunMeasured followerThen;
    private final RunMeasured heroThen;
    private final RunMeasured followerNow;
    private final RunMeasured heroNow;

    /**
     * A pair at sign-off and now. Runs may hold the greys alone.
     *
     * @param agreement the match in force
     */
    HeroDriftFigures(
            Agreement agreement,
            RunMeasured followerThen,
            RunMeasured heroThen,
            RunMeasured followerNow,
            RunMeasured heroNow) {
        this.agreement = agreement;
        this.followerThen = followerThen;
        this.heroThen = heroThen;
        this.followerNow = followerNow;
        this.heroNow = heroNow;
    }

    List<Figure> all() {
        var drift =
                HeroDrift.of(followerThen.measured(), heroThen.measured(), followerNow.measured(), heroNow.measured());
        var greys = drift.greys().stream().filter(this::isBrightEnough).toList();
        var figures = new ArrayList<Figure>();
        drift.white().ifPresent(white -> figures.add(chromaticity(Metric.HERO_DRIFT_WHITE, "White", white, whites())));
        drift.luminance()
                .ifPresent(luminance ->
                        figures.add(luminance(Metric.HERO_DRIFT_LUMINANCE, "Peak luminance", luminance, whites())));
        greys.stream()
                .max(Comparator.comparingDouble(
                        grey -> grey.chromaticity().residual().distance().value()))
                .ifPresent(grey -> figures.add(chromaticity(
                        Metric.HERO_DRIFT_GREY_WHITE, "Grey " + grey.patch(), grey.chromaticity(), greys(grey))));
        greys.stream()
                .max(Comparator.comparingDouble(
                        grey -> Math.abs(grey.luminance().residual().value())))
                .ifPresent(grey -> figures.add(luminance(
                        Metric.HERO_DRIFT_GREY_LUMINANCE, "Grey " + grey.patch(), grey.luminance(), greys(grey))));
        return Figure.naming(figures, followerNow, heroNow, followerThen, heroThen);
    }

    /** From the luminance on from which greys are verified as well: below it they mostly show noise. */
    private boolean isBrightEnough(GreyResidual grey) {
        return followerNow
                .readings()
                .at(grey.patch())
                .filter(reading -> reading.luminance() >= Verification.DEFAULT_FLOOR)
                .isPresent();
    }

    private Figure chromaticity(Metric metric, String what, ChromaticityResidual r, List<ReadingRef> readings) {
        return figure(
                metric,
                r.residual().distance().value(),
                r.residual().distance().standardUncertainty(),
                what + " differs from the hero by Δu′v′ "
                        + Say.fixed(r.now().distance().value(), 4) + ", agreed was "
                        + Say.fixed(r.agreed().distance().value(), 4) + ": residual "
                        + Say.fixed(r.residual().distance().value(), 4) + ". Since sign-off the follower moved "
                        + Say.fixed(r.followerMovement().distance().value(), 4) + ", the hero "
                        + Say.fixed(r.heroMovement().distance().value(), 4),
                r.attribution(),
                readings);
    }

    private Figure luminance(Metric metric, String what, LuminanceResidual r, List<ReadingRef> readings) {
        var residual = r.residualPercent();
        return figure(
                metric,
                Math.abs(residual.value()),
                residual.standardUncertainty(),
                what + " differs from the hero by " + percent(r.now().value()) + " %, agreed was "
                        + percent(r.agreed().value()) + " %: residual " + Say.signed(residual.value(), 1)
                        + " %. Since sign-off the follower went "
                        + percent(r.followerMovement().value())
                        + " %, the hero " + percent(r.heroMovement().value()) + " %",
                r.attribution(),
                readings);
    }

    private Figure figure(
            Metric metric,
            double value,
            double uncertainty,
            String explanation,
            Attribution attribution,
            List<ReadingRef> readings) {
        return new Figure(
                metric,
                value,
                uncertainty,
                explanation + shares(attribution, new Estimate(value, uncertainty)) + ". Matched for "
                        + agreement.operator() + "."
                        + (agreement.inQuestion() == null ? "" : " In question: " + agreement.inQuestion() + "."),
                readings,
                agreement.matchId(),
                Blame.of(attribution, agreement.heroPresetId(), agreement.inQuestion() != null),
                List.of(),
                false);
    }

    /** Shares of a residual that is no more than the meter's own scatter would be numbers without a meaning. */
    private static String shares(Attribution attribution, Estimate residual) {
        if (!residual.exceeds(SIGNIFICANT)
                || attribution.followerShare().isEmpty()
                || attribution.heroShare().isEmpty()) {
            return "";
        }
        return "; the follower explains "
                + Say.fixed(100 * attribution.followerShare().getAsDouble(), 0) + " % of it, the hero "
                + Say.fixed(100 * attribution.heroShare().getAsDouble(), 0) + " %";
    }

    private static String percent(double logRatio) {
        return Say.signed(100 * Math.expm1(logRatio), 1);
    }

    private List<ReadingRef> whites() {
        return Stream.of(followerNow, heroNow, followerThen, heroThen)
                .map(RunMeasured::white)
                .toList();
    }

    /** The grey of the follower now, and that of the same level in the other runs. */
    private List<ReadingRef> greys(GreyResidual grey) {
        return Stream.of(followerNow, heroNow, followerThen, heroThen)
                .flatMap(run -> run
                        .readings()
                        .atLevelOf(grey.patch(), followerNow.readings().codes())
                        .map(reading -> run.ref(reading.patch()))
                        .stream())
                .toList();
    }
}
