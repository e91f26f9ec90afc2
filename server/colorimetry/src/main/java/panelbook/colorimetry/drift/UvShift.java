package panelbook.colorimetry.drift;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Propagation;
import panelbook.colorimetry.uncertainty.Term;

/**
 * A vector in the CIE 1976 chromaticity diagram.
 *
 * @param u delta u'
 * @param v delta v'
 * @param distance delta u'v', the length; its uncertainty near zero is as told in {@link Propagation}
 */
public record UvShift(Estimate u, Estimate v, Estimate distance) {

    /** The sum of the readings' chromaticities, each times its coefficient. */
    static UvShift of(List<Measured> readings, double... coefficients) {
        List<Term> terms = new ArrayList<>();
        for (int i = 0; i < coefficients.length; i++) {
            terms.add(readings.get(i).uncertainty().ofChromaticity(coefficients[i]));
        }
        double uncertainty = LinearCombination.standardUncertainty(terms);
        XYZ[] colours = readings.stream().map(Measured::xyz).toArray(XYZ[]::new);
        return new UvShift(
                new Estimate(sum(colours, coefficients, UV1976::u), uncertainty),
                new Estimate(sum(colours, coefficients, UV1976::v), uncertainty),
                Propagation.of(
                        readings, c -> Math.hypot(sum(c, coefficients, UV1976::u), sum(c, coefficients, UV1976::v))));
    }

    private static double sum(XYZ[] colours, double[] coefficients, ToDoubleFunction<UV1976> coordinate) {
        double sum = 0;
        for (int i = 0; i < coefficients.length; i++) {
            sum += coefficients[i]
                    * coordinate.applyAsDouble(colours[i].uv1976().orElseThrow());
        }
        return sum;
    }

    /** Scalar product. */
    double dot(UvShift other) {
        return u.value() * other.u.value() + v.value() * other.v.value();
    }
}
