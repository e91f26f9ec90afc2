package panelbook.colorimetry.uncertainty;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The uncertainty of a sum of measured quantities, some of which share a systematic error.
 *
 * <p>Variance = sum over keys of (sum of c sys)2 + sum of c2 s2, with sys2 = u2 - s2. So the difference of two readings
 * from one source carries sqrt(2) s, and from two sources both full uncertainties. Source: JCGM 100:2008, 5.2.2 and F.1.2,
 * with correlation 1 of the systematic parts of one source and 0 of all else.
 */
public final class LinearCombination {
    private LinearCombination() {}

    /**
     * Standard uncertainty of a sum.
     *
     * @param terms the summands; none gives 0
     * @return u of the sum, in the unit of coefficient times quantity
     */
    public static double standardUncertainty(List<Term> terms) {
        Map<String, Double> bySource = new HashMap<>();
        double variance = 0;
        for (Term t : terms) {
            double random = t.coefficient() * t.repeatability();
            variance += random * random;
            bySource.merge(t.source(), t.coefficient() * t.systematic(), Double::sum);
        }
        for (double shared : bySource.values()) {
            variance += shared * shared;
        }
        return Math.sqrt(variance);
    }
}
