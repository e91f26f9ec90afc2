package panelbook.colorimetry.drift;

import java.util.Optional;
import java.util.OptionalDouble;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;
import panelbook.colorimetry.uncertainty.Measured;

/**
 * The readings of a run and what they are worth.
 *
 * @param readings by patch
 * @param uncertainty of the instrument on this display, with the key of its systematic error
 */
public record MeasuredRun(Readings readings, InstrumentUncertainty uncertainty) {
    private static final double DETECTION = 3;

    Measured measured(Reading reading) {
        return new Measured(reading.xyz(), uncertainty);
    }

    /** White, when it gives light enough to speak of its luminance and colour. */
    Optional<Measured> white() {
        return readings.white().filter(this::isLit).map(this::measured);
    }

    /** Black, when the instrument can tell it from nothing: a ratio to it means something. */
    Optional<Measured> litBlack() {
        return readings.black().filter(this::isLit).map(this::measured);
    }

    /**
     * Contrast: white over black.
     *
     * @return a ratio; empty when one of the two was not measured, or the instrument cannot tell it from nothing
     */
    public OptionalDouble contrast() {
        return white().stream()
                .flatMap(white -> litBlack().stream()
                        .map(black -> white.xyz().y() / black.xyz().y()))
                .mapToDouble(Double::doubleValue)
                .findFirst();
    }

    /**
     * Whether the luminance is above what the instrument detects, three standard uncertainties of its floor (the usual
     * limit of detection, common practice): below it a logarithm would only show noise.
     */
    boolean isLit(Reading reading) {
        return reading.luminance() > DETECTION * uncertainty.luminanceFloor()
                && reading.xyz().hasChromaticity();
    }
}
