package panelbook.app.instruments;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
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
 * @param certificates all there are
 * @param corrections all that were not withdrawn
 */
public record InstrumentFacts(
        UUID id,
        String name,
        double luminanceUncertainty,
        double luminanceRepeatability,
        double chromaticityUncertainty,
        double chromaticityRepeatability,
        double luminanceFloor,
        List<Certificate> certificates,
        List<MeterCorrection> corrections) {

    /**
     * When a certificate holds.
     *
     * @param from first day
     * @param until last day
     */
    public record Certificate(LocalDate from, LocalDate until) {}

    private static final double COVERAGE_FACTOR = 2;

    /** The last day of those certificates that had been issued on a day; empty when there was none yet. */
    public Optional<LocalDate> certifiedUntil(LocalDate day) {
        return certificates.stream()
                .filter(certificate -> !certificate.from().isAfter(day))
                .map(Certificate::until)
                .max(Comparator.naturalOrder());
    }

    /**
     * The correction that a run is to be read with: one for its display before one for its model, of these the one with
     * the latest validity, of these the highest version. Empty when it is to be read as it was taken.
     *
     * @param takenAt when the run was taken
     */
    public Optional<MeterCorrection> correctionFor(Instant takenAt, UUID displayId, String model) {
        return corrections.stream()
                .filter(correction -> correction.fits(takenAt, displayId, model))
                .max(MeterCorrection.PRECEDENCE);
    }

    /**
     * The figures as standard uncertainties on displays of a panel technology. The systematic error is keyed by
     * instrument, technology and correction, since a meter errs alike on like spectra only, and as long as it is
     * corrected alike. A repeatability above the uncertainty is taken as the whole of it.
     *
     * @param correction that its readings were corrected with, or null
     */
    public InstrumentUncertainty on(String panelTechnology, @Nullable MeterCorrection correction) {
        var luminanceS = luminanceRepeatability / 100;
        return new InstrumentUncertainty(
                Math.max(luminanceUncertainty / 100 / COVERAGE_FACTOR, luminanceS),
                luminanceS,
                Math.max(chromaticityUncertainty / COVERAGE_FACTOR, chromaticityRepeatability),
                chromaticityRepeatability,
                luminanceFloor,
                id + " on " + panelTechnology + (correction == null ? "" : " with " + correction.id()));
    }
}
