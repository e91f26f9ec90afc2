package panelbook.app.assessment;

import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.verification.PatchVerification;
import panelbook.colorimetry.verification.Verification;

/** A run against a target, patch by patch, for those who show it. The findings rest on the same numbers. */
public final class Verified {

    private final Verification verification;
    private final PatchUncertainty uncertainty;

    /**
     * One patch.
     *
     * @param deltaEItpUncertainty standard uncertainty
     * @param luminanceErrorPercent with sign, %; null when no light is expected
     * @param luminanceErrorUncertainty standard uncertainty, %; null likewise
     * @param judged whether its luminance enters the figures of the run, since enough light is expected
     */
    public record VerifiedPatch(
            PatchVerification patch,
            double deltaEItpUncertainty,
            @Nullable Double luminanceErrorPercent,
            @Nullable Double luminanceErrorUncertainty,
            boolean judged) {}

    private Verified(Target target, RunMeasured run) {
        this.verification = Verification.of(target, run.readings(), Verification.DEFAULT_FLOOR);
        this.uncertainty = new PatchUncertainty(target, run);
    }

    /** A run against a target. */
    public static Verified of(Target target, RunMeasured run) {
        return new Verified(target, run);
    }

    /** Each patch, in the order taken. */
    public List<VerifiedPatch> patches() {
        return verification.patches().stream().map(this::patch).toList();
    }

    private VerifiedPatch patch(PatchVerification patch) {
        var error = patch.luminanceErrorPercent();
        return new VerifiedPatch(
                patch,
                uncertainty.of(patch, colour -> ColourDifference.itp(colour, patch.expected())),
                error.isPresent() ? error.getAsDouble() : null,
                error.isPresent() ? uncertainty.ofLuminancePercent(patch) : null,
                patch.expected().y() >= verification.floor());
    }

    /** The black and white luminance that the expected colours rest on, cd/m². */
    public LuminanceRange luminance() {
        return verification.luminance();
    }

    /** Expected luminance from which errors of luminance enter the figures of the run, cd/m². */
    public double floor() {
        return verification.floor();
    }

    /** Share of the target's u′v′ triangle that the run reaches, 0 to 1; empty when a primary is missing or dark. */
    public OptionalDouble gamutCoverage() {
        return verification.gamutCoverage();
    }

    /** White over black with its standard uncertainty; null when either is missing or black lies at the meter's floor. */
    public static @Nullable Estimate contrast(RunMeasured run) {
        var contrast = run.measured().contrast();
        var white = run.readings().white();
        var black = run.readings().black();
        return contrast.isEmpty() || white.isEmpty() || black.isEmpty()
                ? null
                : contrast(
                        contrast.getAsDouble(),
                        run.measured().uncertainty(),
                        white.get().luminance(),
                        black.get().luminance());
    }

    static Estimate contrast(double contrast, InstrumentUncertainty meter, double white, double black) {
        return new Estimate(
                contrast,
                contrast
                        * LinearCombination.standardUncertainty(
                                List.of(meter.ofLogLuminance(1, white), meter.ofLogLuminance(-1, black))));
    }
}
