package panelbook.colorimetry.signal;

import panelbook.colorimetry.Require;

/** An electro-optical transfer function, before it meets a display; {@link #on} gives it black and white. */
public sealed interface Eotf {
    /**
     * The function on a display.
     *
     * @param range black and white luminance, cd/m2
     * @return signal to light and back
     */
    DisplayEotf on(LuminanceRange range);

    /**
     * PQ: absolute, so that black and white of the display only clip it.
     *
     * <p>Source: SMPTE ST 2084:2014, ITU-R BT.2100-2 (2018), Table 4. The standards are silent on a display that reaches
     * less: the hard clip per channel at both ends is common practice, no published source.
     */
    record Pq() implements Eotf {
        @Override
        public DisplayEotf on(LuminanceRange range) {
            return new PqOnDisplay(range);
        }
    }

    /**
     * HLG with its system gamma and black lift.
     *
     * <p>Conditions: the signal's primaries are those of BT.2020 (the OOTF weighs channels by their luminance); nominal
     * surround of 5 cd/m2. Source: ITU-R BT.2100-2 (2018), Table 5.
     *
     * @param systemGamma no unit, greater than zero; {@link #forPeak} gives that of a peak luminance
     */
    record Hlg(double systemGamma) implements Eotf {
        private static final double A = 0.17883277;
        private static final double B = 1 - 4 * A;

        /** 0.5 - a ln(4a), as the Recommendation rounds it. */
        private static final double C = 0.55991073;

        public Hlg {
            Require.positive("HLG system gamma", systemGamma);
        }

        /**
         * HLG on a display of a nominal peak luminance.
         *
         * @param peakLuminance Lw, cd/m2, greater than zero
         * @return HLG with {@link #systemGamma(double)} of that peak
         */
        public static Hlg forPeak(double peakLuminance) {
            return new Hlg(systemGamma(peakLuminance));
        }

        /**
         * System gamma of a nominal peak luminance.
         *
         * @param peakLuminance Lw, cd/m2, greater than zero
         * @return 1.2 + 0.42 log10(Lw / 1000) from 400 to 2000 cd/m2; outside the extended model 1.2 * 1.111^log2(Lw /
         *     1000). The two do not meet at the seams (1.033 and 1.044 at 400 cd/m2), in the Recommendation as here.
         *     Source: ITU-R BT.2100-2 (2018), Table 5, note 5f (its number from memory); the extended model is also in ITU-R BT.2390
         */
        public static double systemGamma(double peakLuminance) {
            double ratio = Require.positive("nominal peak luminance in cd/m2", peakLuminance) / 1000;
            if (peakLuminance >= 400 && peakLuminance <= 2000) {
                return 1.2 + 0.42 * Math.log10(ratio);
            }
            return 1.2 * Math.pow(1.111, Math.log(ratio) / Math.log(2));
        }

        /**
         * Scene light to signal.
         *
         * @param scene E, no unit, 0 to 1 and, for headroom, above
         * @return sqrt(3E) up to 1/12, a ln(12E - b) + c above
         */
        public static double oetf(double scene) {
            return scene <= 1.0 / 12 ? Math.sqrt(3 * scene) : A * Math.log(12 * scene - B) + C;
        }

        /**
         * Signal to scene light.
         *
         * @param signal no unit, 0 to 1 and, for headroom, above
         * @return E: V2 / 3 up to 1/2, (exp((V - c) / a) + b) / 12 above; 1 gives 1.000000024, since c is rounded
         */
        public static double inverseOetf(double signal) {
            return signal <= 0.5 ? signal * signal / 3 : (Math.exp((signal - C) / A) + B) / 12;
        }

        @Override
        public DisplayEotf on(LuminanceRange range) {
            return new HlgOnDisplay(systemGamma, range);
        }
    }

    /** ITU-R BT.1886 (2011), Annex 1: L = a max(V + b, 0)^2.4 through the display's own black and white. */
    record Bt1886() implements Eotf {
        static final double GAMMA = 2.40;

        @Override
        public DisplayEotf on(LuminanceRange range) {
            return PowerOnDisplay.bt1886(range);
        }
    }

    /**
     * A plain power law between the display's black and white: L = Lb + (Lw - Lb) max(V, 0)^gamma.
     *
     * <p>Source: SMPTE RP 431-2:2011 for gamma 2.6 without black; adding the display's black is common practice, no
     * published source.
     *
     * @param gamma no unit, greater than zero
     */
    record Power(double gamma) implements Eotf {
        public Power {
            Require.positive("gamma", gamma);
        }

        @Override
        public DisplayEotf on(LuminanceRange range) {
            return PowerOnDisplay.power(gamma, range);
        }
    }
}
