package panelbook.colorimetry;

/** The Planckian locus as a table, and Ohno's nearest point on it; see {@link Cct} for range and source. */
final class PlanckianLocus {
    /** Second radiation constant, m K, as the colorimetry of CIE 015:2018 keeps it (ITS-90). */
    private static final double C2 = 1.4388e-2;

    private static final double STEP = 1.0025;

    /**
     * Within this distance from the locus, and within as many chords of the table, the triangular solution is the better
     * one. Ohno's 0.002 alone is meant for a table in steps of 1 %; on finer steps the chord would miss the bend of the
     * locus by 0.2 K near 0.002.
     */
    private static final double TRIANGULAR_BELOW = 0.002;

    private static final double TRIANGULAR_CHORDS = 3;

    private static final double[] KELVIN = temperatures();
    private static final double[] U = new double[KELVIN.length];
    private static final double[] V = new double[KELVIN.length];

    static {
        for (int i = 0; i < KELVIN.length; i++) {
            UV1960 uv = at(KELVIN[i]);
            U[i] = uv.u();
            V[i] = uv.v();
        }
    }

    private PlanckianLocus() {}

    private static double[] temperatures() {
        // one entry beyond each end, so that the ends themselves have two neighbours
        int steps = (int) Math.ceil(Math.log(Cct.GREATEST_KELVIN / Cct.LEAST_KELVIN) / Math.log(STEP));
        double[] t = new double[steps + 3];
        for (int i = 0; i < t.length; i++) {
            t[i] = Cct.LEAST_KELVIN * Math.pow(STEP, i - 1);
        }
        return t;
    }

    /**
     * The chromaticity of a Planckian radiator.
     *
     * @param kelvin T, K
     * @return CIE 1960 u, v, from the CIE 1931 observer at 1 nm. Source: CIE 015:2018, Planck's law
     */
    static UV1960 at(double kelvin) {
        double[] radiance = new double[Cie1931Observer.LAST_NM - Cie1931Observer.FIRST_NM + 1];
        for (int i = 0; i < radiance.length; i++) {
            double metres = (Cie1931Observer.FIRST_NM + i) * 1e-9;
            // scaled by (560 nm)^5: only ratios matter, and the sums stay near one
            radiance[i] = Math.pow(560e-9 / metres, 5) / Math.expm1(C2 / (metres * kelvin));
        }
        XYZ xyz = Cie1931Observer.tristimulus(Cie1931Observer.FIRST_NM, 1, radiance);
        return xyz.chromaticity().orElseThrow().toUV1960();
    }

    static Cct nearest(UV1960 uv) {
        int m = nearestEntry(uv);
        if (distance(uv, m) > Cct.GREATEST_DUV) {
            return Cct.OutOfRange.TOO_FAR_FROM_LOCUS;
        }
        if (m == 0 || m == KELVIN.length - 1) {
            return m == 0 ? Cct.OutOfRange.BELOW_1000_K : Cct.OutOfRange.ABOVE_100000_K;
        }
        Cct.Value triangular = triangular(uv, m);
        double nearby = Math.min(TRIANGULAR_BELOW, TRIANGULAR_CHORDS * chord(m));
        return inRange(Math.abs(triangular.distance()) < nearby ? triangular : parabolic(uv, m));
    }

    private static Cct inRange(Cct.Value value) {
        if (value.temperature() < Cct.LEAST_KELVIN) {
            return Cct.OutOfRange.BELOW_1000_K;
        }
        return value.temperature() > Cct.GREATEST_KELVIN ? Cct.OutOfRange.ABOVE_100000_K : value;
    }

    private static int nearestEntry(UV1960 uv) {
        int best = 0;
        for (int i = 1; i < KELVIN.length; i++) {
            if (distance(uv, i) < distance(uv, best)) {
                best = i;
            }
        }
        return best;
    }

    private static double distance(UV1960 uv, int i) {
        double du = uv.u() - U[i];
        double dv = uv.v() - V[i];
        return Math.sqrt(du * du + dv * dv);
    }

    // both solutions run along 1 / T, in which the locus is more even than in T: less than half of the error

    private static Cct.Value triangular(UV1960 uv, int m) {
        double before = distance(uv, m - 1);
        double after = distance(uv, m + 1);
        double side = chord(m);
        double along = (before * before - after * after + side * side) / (2 * side);
        double share = along / side;
        double reciprocal = between(1 / KELVIN[m - 1], 1 / KELVIN[m + 1], share);
        double across = Math.sqrt(Math.max(before * before - along * along, 0));
        return new Cct.Value(1 / reciprocal, across * side(uv, between(V[m - 1], V[m + 1], share)));
    }

    private static Cct.Value parabolic(UV1960 uv, int m) {
        double r1 = 1 / KELVIN[m - 1];
        double r2 = 1 / KELVIN[m];
        double r3 = 1 / KELVIN[m + 1];
        double d1 = distance(uv, m - 1);
        double d2 = distance(uv, m);
        double d3 = distance(uv, m + 1);
        // Newton's form through the three points, about the middle one, which keeps the digits of small differences
        double slope = (d2 - d1) / (r2 - r1);
        double bend = ((d3 - d2) / (r3 - r2) - slope) / (r3 - r1);
        double least = (r1 + r2) / 2 - slope / (2 * bend);
        double duv = d2 + (least - r2) * (slope + bend * (least - r1));
        return new Cct.Value(1 / least, duv * side(uv, V[m]));
    }

    private static double chord(int m) {
        return Math.hypot(U[m + 1] - U[m - 1], V[m + 1] - V[m - 1]);
    }

    private static double between(double from, double to, double share) {
        return from + (to - from) * share;
    }

    private static double side(UV1960 uv, double vOnLocus) {
        return uv.v() < vOnLocus ? -1 : 1;
    }
}
