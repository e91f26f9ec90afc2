package panelbook.colorimetry.drift;

import java.util.ArrayList;
import java.util.List;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Term;

/** Ratios of luminances as sums of logarithms. */
final class LogRatio {
    private LogRatio() {}

    /** The sum of ln Y of the readings, each times its coefficient. */
    static Estimate of(List<Measured> readings, double... coefficients) {
        double value = 0;
        List<Term> terms = new ArrayList<>();
        for (int i = 0; i < coefficients.length; i++) {
            double luminance = readings.get(i).xyz().y();
            value += coefficients[i] * Math.log(luminance);
            terms.add(readings.get(i).uncertainty().ofLogLuminance(coefficients[i], luminance));
        }
        return new Estimate(value, LinearCombination.standardUncertainty(terms));
    }

    /** A logarithm of a ratio as percent of change, the uncertainty to first order. */
    static Estimate percent(Estimate logRatio) {
        return new Estimate(
                100 * Math.expm1(logRatio.value()), 100 * Math.exp(logRatio.value()) * logRatio.standardUncertainty());
    }
}
