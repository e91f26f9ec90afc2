package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.Lab;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Propagation;
import panelbook.colorimetry.uncertainty.Term;
import panelbook.colorimetry.verification.PatchVerification;
import panelbook.colorimetry.verification.Statistic;
import panelbook.colorimetry.verification.Verification;
import panelbook.colorimetry.verification.Worst;
import panelbook.wire.Metric;
import panelbook.wire.ReadingRef;

/** The figures of a run against its target. A figure that the run's patches cannot give is left out. */
final class VerificationFigures {

    /** Patches whose uncertainties stand for those of all when a mean is judged. */
    private static final int SAMPLE = 16;

    private final Target target;
    private final RunMeasured run;
    private final Verification verification;
    private final InstrumentUncertainty meter;
    private final PatchUncertainty patches;
    private final List<Figure> figures = new ArrayList<>();

    private VerificationFigures(Target target, RunMeasured run) {
        this.target = target;
        this.run = run;
        this.verification = Verification.of(target, run.readings(), Verification.DEFAULT_FLOOR);
        this.meter = run.measured().uncertainty();
        this.patches = new PatchUncertainty(target, run);
    }

    static List<Figure> of(Target target, RunMeasured run) {
        var figures = new VerificationFigures(target, run);
        figures.white();
        figures.black();
        figures.greys();
        figures.differences();
        figures.gamut();
        return Figure.naming(figures.figures, run);
    }

    private void white() {
        var white = run.readings().white();
        if (white.isEmpty()) {
            return;
        }
        var reading = white.get();
        var aim = target.aims().white();
        verification
                .whiteLuminanceErrorPercent()
                .ifPresent(error -> add(
                        Metric.WHITE_LUMINANCE_ERROR,
                        Math.abs(error),
                        uncertainty(meter.ofLuminance(100 / aim, reading.luminance())),
                        "White is " + Say.fixed(reading.luminance(), 1) + " cd/m², the aim " + Say.fixed(aim, 1) + ": "
                                + Say.signed(error, 1) + " %.",
                        run.white()));
        var aimUv = target.space().white().toUV1976();
        verification
                .whiteDeltaUv()
                .ifPresent(distance -> add(
                        Metric.WHITE_CHROMATICITY_ERROR,
                        distance,
                        Propagation.of(
                                        List.of(measured(reading)),
                                        c -> c[0].uv1976()
                                                .map(uv -> ColourDifference.uv1976(uv, aimUv))
                                                .orElse(distance))
                                .standardUncertainty(),
                        "White is Δu′v′ " + Say.fixed(distance, 4) + " from the target white.",
                        run.white()));
    }

    private void black() {
        var black = run.readings().black();
        if (black.isEmpty()) {
            return;
        }
        var luminance = black.get().luminance();
        add(
                Metric.BLACK_LUMINANCE,
                luminance,
                uncertainty(meter.ofLuminance(1, luminance)),
                "Black is " + Say.short3(luminance) + " cd/m².",
                run.black());
        verification.contrast().ifPresent(contrast -> {
            var white = run.readings().white().orElseThrow().luminance();
            add(
                    Metric.CONTRAST,
                    contrast,
                    Verified.contrast(contrast, meter, white, luminance).standardUncertainty(),
                    contrastInWords(contrast, white),
                    run.white(),
                    run.black());
        });
    }

    private String contrastInWords(double contrast, double white) {
        return run.measured().contrast().isPresent()
                ? "Contrast is " + Say.fixed(contrast, 0) + ":1."
                : "Contrast is not measurable, since black lies at the meter's floor: at least "
                        + Say.fixed(white / (3 * meter.luminanceFloor()), 0) + ":1.";
    }

    private void greys() {
        verification.greyTracking().ifPresent(tracking -> {
            greyLuminance(tracking.luminanceErrorPercent());
            tracking.deltaUv().ifPresent(this::greyChromaticity);
        });
    }

    private void greyLuminance(Worst worst) {
        var patch = verified(worst);
        add(
                Metric.GREY_LUMINANCE_ERROR,
                Math.abs(worst.value()),
                patches.ofLuminancePercent(patch),
                "Grey " + patch.patch() + " is " + Say.signed(worst.value(), 1) + " % from its "
                        + Say.short3(patch.expected().y()) + " cd/m².",
                run.ref(patch.patch()));
    }

    private void greyChromaticity(Worst worst) {
        var patch = verified(worst);
        var aim = patch.expected().uv1976();
        add(
                Metric.GREY_CHROMATICITY_ERROR,
                worst.value(),
                patches.of(
                        patch,
                        colour -> colour.uv1976()
                                .flatMap(uv -> aim.map(to -> ColourDifference.uv1976(uv, to)))
                                .orElse(worst.value())),
                "Grey " + patch.patch() + " is Δu′v′ " + Say.fixed(worst.value(), 4) + " from the target white.",
                run.ref(patch.patch()));
    }

    private void differences() {
        var white = XYZ.of(target.space().white(), verification.luminance().white());
        difference(
                verification.deltaEItp(),
                "ΔE ITP",
                Metric.DELTA_E_ITP_MEAN,
                Metric.DELTA_E_ITP_P95,
                Metric.DELTA_E_ITP_MAX,
                PatchVerification::deltaEItp,
                patch -> colour -> ColourDifference.itp(colour, patch.expected()));
        difference(
                verification.deltaE2000(),
                "ΔE 2000",
                Metric.DELTA_E_2000_MEAN,
                Metric.DELTA_E_2000_P95,
                Metric.DELTA_E_2000_MAX,
                PatchVerification::deltaE2000,
                patch -> colour -> ColourDifference.ciede2000(Lab.of(colour, white), Lab.of(patch.expected(), white)));
    }

    private void difference(
            Optional<Statistic> statistic,
            String name,
            Metric mean,
            Metric p95,
            Metric max,
            ToDoubleFunction<PatchVerification> value,
            Function<PatchVerification, ToDoubleFunction<XYZ>> formula) {
        if (statistic.isEmpty()) {
            return;
        }
        var s = statistic.get();
        add(
                mean,
                s.mean(),
                meanUncertainty(formula),
                "Mean " + name + " of " + s.patches() + " patches is " + Say.fixed(s.mean(), 2) + ".",
                run.all());
        var ranked = nearest(value, s.percentile95());
        add(
                p95,
                s.percentile95(),
                uncertainty(ranked, formula),
                "95 % of the patches are within " + name + " " + Say.fixed(s.percentile95(), 2) + " (at "
                        + ranked.patch() + ").",
                run.all());
        var worst = nearest(value, s.maximum());
        add(
                max,
                s.maximum(),
                uncertainty(worst, formula),
                "The largest " + name + " is " + Say.fixed(s.maximum(), 2) + ", at " + s.worst() + ".",
                run.ref(s.worst()));
    }

    private void gamut() {
        verification
                .gamutCoverage()
                .ifPresent(coverage -> add(
                        Metric.GAMUT_COVERAGE,
                        100 * coverage,
                        null,
                        Say.fixed(100 * coverage, 1) + " % of the target's u′v′ triangle is reached.",
                        run.all()));
    }

    /**
     * Of a mean over patches. The meter's systematic error is common to all of them, so the mean is about as uncertain as a
     * patch is: the mean uncertainty of evenly chosen patches, an upper bound.
     */
    private double meanUncertainty(Function<PatchVerification, ToDoubleFunction<XYZ>> formula) {
        var patches = verification.patches();
        var step = Math.max(1, patches.size() / SAMPLE);
        var sum = 0.0;
        var count = 0;
        for (var i = 0; i < patches.size(); i += step) {
            sum += uncertainty(patches.get(i), formula);
            count++;
        }
        return sum / count;
    }

    private double uncertainty(PatchVerification patch, Function<PatchVerification, ToDoubleFunction<XYZ>> formula) {
        return patches.of(patch, formula.apply(patch));
    }

    private static double uncertainty(Term... terms) {
        return LinearCombination.standardUncertainty(List.of(terms));
    }

    private PatchVerification nearest(ToDoubleFunction<PatchVerification> value, double wanted) {
        return verification.patches().stream()
                .min(Comparator.comparingDouble(patch -> Math.abs(value.applyAsDouble(patch) - wanted)))
                .orElseThrow();
    }

    private PatchVerification verified(Worst worst) {
        return verification.patches().stream()
                .filter(patch -> patch.patch().equals(worst.patch()))
                .findFirst()
                .orElseThrow();
    }

    private Measured measured(Reading reading) {
        return new Measured(reading.xyz(), meter);
    }

    private void add(
            Metric metric,
            double value,
            @org.jspecify.annotations.Nullable Double uncertainty,
            String explanation,
            ReadingRef... readings) {
        figures.add(Figure.of(metric, value, uncertainty, explanation, List.of(readings)));
    }
}
