package panelbook.colorimetry;

/** Differences of two colours. Each is symmetric, zero for equal colours and never negative. */
public final class ColourDifference {
    private static final double POW_25_7 = 6103515625.0;

    /** Degrees by which two hues may miss 180 through rounding and still count as opposite. */
    private static final double OPPOSITE_HUE = 1e-9;

    private ColourDifference() {}

    /**
     * Distance in the CIE 1976 chromaticity diagram.
     *
     * @param a first chromaticity
     * @param b second chromaticity
     * @return delta u'v', no unit. Source: ISO/CIE 11664-5:2016
     */
    public static double uv1976(UV1976 a, UV1976 b) {
        return Math.hypot(a.u() - b.u(), a.v() - b.v());
    }

    /**
     * Delta E ITP of two lights: 720 sqrt(dI2 + dT2 + dP2), T = 0.5 Ct, P = Cp.
     *
     * @param a X, Y, Z, cd/m2
     * @param b X, Y, Z, cd/m2
     * @return delta E ITP; 1 is about one just noticeable difference under the most critical viewing. Conditions: see
     *     {@link ICtCp}. Source: ITU-R BT.2124-0 (2019), Annex 1
     */
    public static double itp(XYZ a, XYZ b) {
        return itp(ICtCp.of(a), ICtCp.of(b));
    }

    /**
     * Delta E ITP of two colours in ICtCp.
     *
     * @param a I, Ct (not halved), Cp
     * @param b I, Ct (not halved), Cp
     * @return delta E ITP. Source: ITU-R BT.2124-0 (2019), Annex 1
     */
    public static double itp(ICtCp a, ICtCp b) {
        double di = a.i() - b.i();
        double dt = 0.5 * (a.ct() - b.ct());
        double dp = a.cp() - b.cp();
        return 720 * Math.sqrt(di * di + dt * dt + dp * dp);
    }

    /**
     * CIEDE2000 with kL = kC = kH = 1.
     *
     * @param first L*, a*, b*
     * @param second L*, a*, b* against the same white
     * @return delta E 00. Conditions: small differences of surface-like colours; for light near or above the white it is
     *     a comparison figure only. Source: ISO/CIE 11664-6:2014; the branches as in Sharma, Wu and Dalal, Color Res.
     *     Appl. 30 (2005) 21-30
     */
    public static double ciede2000(Lab first, Lab second) {
        double g = chromaBoost(Math.hypot(first.a(), first.b()), Math.hypot(second.a(), second.b()));
        double a1 = (1 + g) * first.a();
        double a2 = (1 + g) * second.a();
        double c1 = Math.hypot(a1, first.b());
        double c2 = Math.hypot(a2, second.b());
        double h1 = hue(a1, first.b());
        double h2 = hue(a2, second.b());
        boolean grey = c1 * c2 == 0;
        double dHue = grey ? 0 : hueDifference(h1, h2);
        double hueMean = grey ? h1 + h2 : hueMean(h1, h2);
        double dLightness = second.lightness() - first.lightness();
        double dHueChord = 2 * Math.sqrt(c1 * c2) * Math.sin(Math.toRadians(dHue / 2));
        return weighted(
                dLightness, c2 - c1, dHueChord, (first.lightness() + second.lightness()) / 2, (c1 + c2) / 2, hueMean);
    }

    private static double chromaBoost(double c1, double c2) {
        return 0.5 * (1 - Math.sqrt(seventhPowerShare((c1 + c2) / 2)));
    }

    /** C^7 / (C^7 + 25^7). */
    private static double seventhPowerShare(double chroma) {
        double c2 = chroma * chroma;
        double c7 = c2 * c2 * c2 * chroma;
        return c7 / (c7 + POW_25_7);
    }

    private static double hue(double a, double b) {
        double degrees = Math.toDegrees(Math.atan2(b, a));
        return degrees < 0 ? degrees + 360 : degrees;
    }

    private static double hueDifference(double h1, double h2) {
        double d = h2 - h1;
        if (Math.abs(d) <= 180 + OPPOSITE_HUE) {
            return d;
        }
        return d > 0 ? d - 360 : d + 360;
    }

    private static double hueMean(double h1, double h2) {
        double sum = h1 + h2;
        if (Math.abs(h1 - h2) <= 180 + OPPOSITE_HUE) {
            return sum / 2;
        }
        return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
    }

    private static double weighted(
            double dLightness, double dChroma, double dHue, double lightness, double chroma, double hue) {
        double t = 1
                - 0.17 * cosDegrees(hue - 30)
                + 0.24 * cosDegrees(2 * hue)
                + 0.32 * cosDegrees(3 * hue + 6)
                - 0.20 * cosDegrees(4 * hue - 63);
        double fromMid = (lightness - 50) * (lightness - 50);
        double l = dLightness / (1 + 0.015 * fromMid / Math.sqrt(20 + fromMid));
        double c = dChroma / (1 + 0.045 * chroma);
        double h = dHue / (1 + 0.015 * chroma * t);
        double turn = (hue - 275) / 25;
        double rotation =
                -Math.sin(Math.toRadians(60 * Math.exp(-turn * turn))) * 2 * Math.sqrt(seventhPowerShare(chroma));
        return Math.sqrt(Math.max(l * l + c * c + h * h + rotation * c * h, 0));
    }

    private static double cosDegrees(double degrees) {
        return Math.cos(Math.toRadians(degrees));
    }
}
