package panelbook.colorimetry;

import java.util.OptionalDouble;

/**
 * Correlated colour temperature and the signed distance from the Planckian locus, or why there is none.
 *
 * <p>Range: 1000 to 100000 K and Duv from -0.05 to 0.05; beyond that distance CIE 015:2018 gives a colour no
 * correlated colour temperature. Accuracy against points set off the exact locus: 0.1 K below 10000 K, 0.3 K above, and
 * 1e-6 in Duv.
 * Source: Ohno, "Practical use and calculation of CCT and Duv", LEUKOS 10 (2014) 47-55, combined triangular and parabolic
 * solution, on a locus in steps of 0.25 % (Planck's law with c2 = 1.4388e-2 m K, CIE 1931 observer, 1 nm). Its factor
 * 0.99991 for the triangular solution belongs to a table in steps of 1 % and is not used.
 */
public sealed interface Cct {
    /** Least correlated colour temperature that is given, K. */
    double LEAST_KELVIN = 1000;

    /** Greatest correlated colour temperature that is given, K. */
    double GREATEST_KELVIN = 100000;

    /** Greatest distance from the Planckian locus at which a correlated colour temperature is given. */
    double GREATEST_DUV = 0.05;

    /**
     * Correlated colour temperature of a chromaticity.
     *
     * @param uv CIE 1960 u, v
     * @return the temperature in kelvin with Duv, positive above the locus (greenish); or the reason for having none.
     *     Example: D65 (x 0.3127, y 0.3290) gives 6504.3 K and Duv 0.0032
     */
    static Cct of(UV1960 uv) {
        return PlanckianLocus.nearest(uv);
    }

    /**
     * The temperature.
     *
     * @return kelvin; empty when out of range
     */
    OptionalDouble kelvin();

    /**
     * The signed distance from the locus.
     *
     * @return Duv in CIE 1960 u, v; empty when out of range
     */
    OptionalDouble duv();

    /**
     * A colour that has a correlated colour temperature.
     *
     * @param temperature T, K
     * @param distance Duv, positive above the locus
     */
    record Value(double temperature, double distance) implements Cct {
        @Override
        public OptionalDouble kelvin() {
            return OptionalDouble.of(temperature);
        }

        @Override
        public OptionalDouble duv() {
            return OptionalDouble.of(distance);
        }
    }

    /** A colour that has none, by reason. */
    enum OutOfRange implements Cct {
        /** Redder than the locus at 1000 K. */
        BELOW_1000_K,
        /** Bluer than the locus at 100000 K. */
        ABOVE_100000_K,
        /** More than 0.05 away from the locus. */
        TOO_FAR_FROM_LOCUS;

        @Override
        public OptionalDouble kelvin() {
            return OptionalDouble.empty();
        }

        @Override
        public OptionalDouble duv() {
            return OptionalDouble.empty();
        }
    }
}
