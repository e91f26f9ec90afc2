package panelbook.colorimetry.signal;

/** HLG: scene light per channel, then the OOTF that scales all channels by the scene's luminance. */
final class HlgOnDisplay extends DisplayEotf {
    /** Luminance of the scene from BT.2020 primaries. Source: ITU-R BT.2100-2, Table 5. */
    private static final double RED = 0.2627;

    private static final double GREEN = 0.6780;
    private static final double BLUE = 0.0593;

    private final double gamma;
    private final double white;
    private final double lift;

    HlgOnDisplay(double gamma, LuminanceRange range) {
        this.gamma = gamma;
        this.white = range.white();
        this.lift = Math.sqrt(3 * Math.pow(range.black() / range.white(), 1 / gamma));
    }

    @Override
    double channel(double signal) {
        return Eotf.Hlg.inverseOetf(Math.max((1 - lift) * signal + lift, 0));
    }

    @Override
    double inverseChannel(double channel) {
        return (Eotf.Hlg.oetf(Math.max(channel, 0)) - lift) / (1 - lift);
    }

    @Override
    void toDisplay(double[] channels) {
        scale(channels, white * Math.pow(luma(channels), gamma - 1));
    }

    @Override
    void fromDisplay(double[] light) {
        double scene = Math.pow(Math.max(luma(light), 0) / white, 1 / gamma);
        scale(light, 1 / (white * Math.pow(scene, gamma - 1)));
    }

    private static double luma(double[] rgb) {
        return RED * rgb[0] + GREEN * rgb[1] + BLUE * rgb[2];
    }

    private static void scale(double[] rgb, double factor) {
        // no light at all: the factor is infinite or not defined, and nothing times anything stays nothing
        boolean dark = rgb[0] == 0 && rgb[1] == 0 && rgb[2] == 0;
        for (int i = 0; i < rgb.length && !dark; i++) {
            rgb[i] *= factor;
        }
    }

    @Override
    double greyLight(double channel) {
        return white * Math.pow(channel, gamma);
    }

    @Override
    double inverseGreyLight(double light) {
        return Math.pow(Math.max(light, 0) / white, 1 / gamma);
    }
}
