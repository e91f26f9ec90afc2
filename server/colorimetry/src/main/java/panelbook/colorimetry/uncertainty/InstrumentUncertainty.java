package panelbook.colorimetry.uncertainty;

import panelbook.colorimetry.Require;

/**
 * What the readings of one run are worth: the figures of the instrument on this kind of display.
 *
 * <p>The luminance floor stands for dark noise and zero drift. It differs from reading to reading, so it never cancels.
 *
 * @param luminance u of the luminance, relative to it (0.02 is 2 %), full
 * @param luminanceRepeatability the random part of it, relative, not above {@code luminance}
 * @param chromaticity u of u' and of v', each, full; the two are taken as independent of each other and of luminance
 * @param chromaticityRepeatability the random part of it, not above {@code chromaticity}
 * @param luminanceFloor u of the luminance of black, cd/m2
 * @param source key of the systematic error. Readings with equal keys share it: use the instrument, its correction and
 *     the display's panel technology, since a meter errs alike on like spectra only
 */
public record InstrumentUncertainty(
        double luminance,
        double luminanceRepeatability,
        double chromaticity,
        double chromaticityRepeatability,
        double luminanceFloor,
        String source) {
    public InstrumentUncertainty {
        Term.requireRepeatabilityWithin("luminance ", luminance, luminanceRepeatability);
        Term.requireRepeatabilityWithin("chromaticity ", chromaticity, chromaticityRepeatability);
        Require.notNegative("luminance floor in cd/m2", luminanceFloor);
    }

    /**
     * A reading's luminance in a sum of luminances.
     *
     * @param coefficient c
     * @param luminance Y, cd/m2
     * @return a term in cd/m2
     */
    public Term ofLuminance(double coefficient, double luminance) {
        double full = Math.hypot(this.luminance * luminance, luminanceFloor);
        return new Term(coefficient, full, Math.min(randomLuminance(luminance), full), source);
    }

    /**
     * A reading's luminance in a sum of its logarithms.
     *
     * @param coefficient c
     * @param luminance Y, cd/m2, greater than zero
     * @return a term in ln(cd/m2), to first order
     */
    public Term ofLogLuminance(double coefficient, double luminance) {
        return ofLuminance(coefficient / Require.positive("luminance in cd/m2", luminance), luminance);
    }

    /**
     * A reading's u' or v' in a sum of the same coordinate.
     *
     * @param coefficient c
     * @return a term in u' or v'
     */
    public Term ofChromaticity(double coefficient) {
        return new Term(coefficient, chromaticity, chromaticityRepeatability, source);
    }

    /** s of a luminance, cd/m2. */
    double randomLuminance(double luminance) {
        return Math.hypot(luminanceRepeatability * luminance, luminanceFloor);
    }

    /** Systematic part of a luminance, relative. */
    double systematicLuminance() {
        return Term.systematic(luminance, luminanceRepeatability);
    }

    /** Systematic part of u' and of v'. */
    double systematicChromaticity() {
        return Term.systematic(chromaticity, chromaticityRepeatability);
    }
}
