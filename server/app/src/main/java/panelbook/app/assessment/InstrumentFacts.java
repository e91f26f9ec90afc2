package panelbook.app.assessment;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;

/**
 * An instrument's figures as they are entered: uncertainties expanded with k = 2, repeatabilities as standard deviations.
 *
 * @param luminanceUncertainty k = 2, %
 * @param luminanceRepeatability s, %
 * @param chromaticityUncertainty k = 2, u′ and v′ each
 * @param chromaticityRepeatability s, u′ and v′ each
 * @param luminanceFloor s on black, cd/m²
 * @param certifiedUntil last day of the certificate that ends last; null when there is none
 */
record InstrumentFacts(
        UUID id,
        String name,
        double luminanceUncertainty,
        double luminanceRepeatability,
        double chromaticityUncertainty,
        double chromaticityRepeatability,
        double luminanceFloor,
        @Nullable LocalDate certifiedUntil) {

    private static final double COVERAGE_FACTOR = 2;

    /**
     * The figures as standard uncertainties on displays of a panel technology. The systematic error is keyed by instrument
     * and technology, since a meter errs alike on like spectra only. A repeatability above the uncertainty is taken as
     * the whole of it.
     */
    InstrumentUncertainty on(String panelTechnology) {
        var luminanceS = luminanceRepeatability / 100;
        return new InstrumentUncertainty(
                Math.max(luminanceUncertainty / 100 / COVERAGE_FACTOR, luminanceS),
                luminanceS,
                Math.max(chromaticityUncertainty / COVERAGE_FACTOR, chromaticityRepeatability),
                chromaticityRepeatability,
                luminanceFloor,
                id + " on " + panelTechnology);
    }
}
