package panelbook.colorimetry;

/** The PQ function, signal to absolute luminance and back. Source: SMPTE ST 2084:2014; ITU-R BT.2100-2, Table 4. */
public final class St2084 {
    /** The luminance of signal 1, cd/m2. */
    public static final double PEAK = 10000;

    private static final double M1 = 2610.0 / 16384;
    private static final double M2 = 2523.0 / 4096 * 128;
    private static final double C1 = 3424.0 / 4096;
    private static final double C2 = 2413.0 / 4096 * 32;
    private static final double C3 = 2392.0 / 4096 * 32;

    private St2084() {}

    /**
     * EOTF: the luminance that a signal asks for.
     *
     * @param signal N, no unit, taken as 0 below 0 and as 1 above 1
     * @return L, 0 to 10000 cd/m2
     */
    public static double luminance(double signal) {
        double n = Math.pow(Math.min(Math.max(signal, 0), 1), 1 / M2);
        return PEAK * Math.pow(Math.max(n - C1, 0) / (C2 - C3 * n), 1 / M1);
    }

    /**
     * Inverse EOTF: the signal that asks for a luminance.
     *
     * @param luminance L, cd/m2, taken as 0 below 0 and as 10000 above 10000
     * @return N, 7.3e-7 (the standard's value for 0 cd/m2) to 1
     */
    public static double signal(double luminance) {
        return unclippedSignal(Math.min(luminance, PEAK));
    }

    /** As {@link #signal}, but going on above 10000 cd/m2, where LMS of a bright saturated colour may lie. */
    static double unclippedSignal(double luminance) {
        double y = Math.pow(Math.max(luminance, 0) / PEAK, M1);
        return Math.pow((C1 + C2 * y) / (1 + C3 * y), M2);
    }

    /** The inverse of {@link #unclippedSignal}. */
    static double unclippedLuminance(double signal) {
        double n = Math.pow(Math.max(signal, 0), 1 / M2);
        return PEAK * Math.pow(Math.max(n - C1, 0) / (C2 - C3 * n), 1 / M1);
    }
}
