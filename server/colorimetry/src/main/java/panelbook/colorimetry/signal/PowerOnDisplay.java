package panelbook.colorimetry.signal;

/** L = scale * max(V + lift, 0)^gamma + floor: BT.1886 with a lift and no floor, the plain power law the other way. */
final class PowerOnDisplay extends DisplayEotf {
    private final double gamma;
    private final double scale;
    private final double lift;
    private final double floor;

    private PowerOnDisplay(double gamma, double scale, double lift, double floor) {
        this.gamma = gamma;
        this.scale = scale;
        this.lift = lift;
        this.floor = floor;
    }

    static PowerOnDisplay bt1886(LuminanceRange range) {
        double gamma = Eotf.Bt1886.GAMMA;
        double white = Math.pow(range.white(), 1 / gamma);
        double black = Math.pow(range.black(), 1 / gamma);
        return new PowerOnDisplay(gamma, Math.pow(white - black, gamma), black / (white - black), 0);
    }

    static PowerOnDisplay power(double gamma, LuminanceRange range) {
        return new PowerOnDisplay(gamma, range.white() - range.black(), 0, range.black());
    }

    @Override
    double channel(double signal) {
        return scale * Math.pow(Math.max(signal + lift, 0), gamma) + floor;
    }

    @Override
    double inverseChannel(double channel) {
        return Math.pow(Math.max(channel - floor, 0) / scale, 1 / gamma) - lift;
    }
}
