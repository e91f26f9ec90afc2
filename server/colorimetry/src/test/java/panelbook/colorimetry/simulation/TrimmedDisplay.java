package panelbook.colorimetry.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;

/**
 * A display with gains, biases and a black level, whose clicks do what its model's do, more or less. Immutable: turning a
 * control gives another display.
 *
 * <p>Light of a channel: peak times V^2.4 times the gain, which clips 1.3 clicks above calibration; the bias adds to the
 * dark end and fades towards white; the black level lifts the floor. Sizes of clicks are invented.
 */
public final class TrimmedDisplay {
    private static final double GAMMA = 2.4;
    private static final double HEADROOM_CLICKS = 1.3;

    private final Primaries primaries;
    private final double peak;
    private final double floor;
    private final double[] gainClick;
    private final double[] biasClick;
    private final double blackClick;
    private final double[] gains;
    private final double[] biases;
    private final int black;

    private TrimmedDisplay(
            Primaries primaries,
            double peak,
            double floor,
            double[] gainClick,
            double[] biasClick,
            double blackClick,
            double[] gains,
            double[] biases,
            int black) {
        this.primaries = primaries;
        this.peak = peak;
        this.floor = floor;
        this.gainClick = gainClick;
        this.biasClick = biasClick;
        this.blackClick = blackClick;
        this.gains = gains;
        this.biases = biases;
        this.black = black;
    }

    /**
     * A display of a model, as calibrated.
     *
     * @param primaries its light
     * @param spread standard deviation of the size of a click among displays of the model, relative
     * @param random which display of the model
     * @return peak 100 cd/m2, floor 0.02 cd/m2; about 0.6 % of a channel's light per click of gain, 0.03 % of its peak per
     *     click of bias, 6 % of the floor per click of black level
     */
    public static TrimmedDisplay ofModel(Primaries primaries, double spread, Random random) {
        double[] gain = new double[3];
        double[] bias = new double[3];
        for (int i = 0; i < 3; i++) {
            gain[i] = 0.006 * (1 + spread * random.nextGaussian());
            bias[i] = 0.0003 * (1 + spread * random.nextGaussian());
        }
        double level = 0.06 * (1 + spread * random.nextGaussian());
        return new TrimmedDisplay(primaries, 100, 0.02, gain, bias, level, new double[3], new double[3], 0);
    }

    /**
     * Turns a gain.
     *
     * @param channel 0 red, 1 green, 2 blue
     * @param clicks up or down
     * @return the display after it
     */
    public TrimmedDisplay gain(int channel, double clicks) {
        return new TrimmedDisplay(
                primaries,
                peak,
                floor,
                gainClick,
                biasClick,
                blackClick,
                turned(gains, channel, clicks),
                biases,
                black);
    }

    /**
     * Turns a bias.
     *
     * @param channel 0 red, 1 green, 2 blue
     * @param clicks up or down
     * @return the display after it
     */
    public TrimmedDisplay bias(int channel, double clicks) {
        return new TrimmedDisplay(
                primaries,
                peak,
                floor,
                gainClick,
                biasClick,
                blackClick,
                gains,
                turned(biases, channel, clicks),
                black);
    }

    /**
     * Turns the black level.
     *
     * @param clicks up or down
     * @return the display after it
     */
    public TrimmedDisplay blackLevel(int clicks) {
        return new TrimmedDisplay(
                primaries, peak, floor, gainClick, biasClick, blackClick, gains, biases, black + clicks);
    }

    /**
     * Measures patches.
     *
     * @param codes range and bit depth of the patches
     * @param patches what is sent
     * @param instrument the meter
     * @param random source of its noise
     * @return readings in the order of the patches
     */
    public List<Reading> measure(CodeValues codes, List<Patch> patches, Instrument instrument, Random random) {
        Matrix3 seen = primaries.seen(instrument.filterShiftNm());
        XYZ white = XYZ.of(Chromaticity.D65, 1);
        XYZ shares = primaries.seen(0).inverse().times(white.x(), white.y(), white.z());
        List<Reading> readings = new ArrayList<>(patches.size());
        for (Patch p : patches) {
            XYZ light = new XYZ(
                    shares.x() * light(0, codes.toSignal(p.red())),
                    shares.y() * light(1, codes.toSignal(p.green())),
                    shares.z() * light(2, codes.toSignal(p.blue())));
            readings.add(new Reading(p, instrument.read(seen, light, random)));
        }
        return List.copyOf(readings);
    }

    private double light(int channel, double signal) {
        double gain = 1 + gains[channel] * gainClick[channel];
        double most = 1 + HEADROOM_CLICKS * gainClick[channel];
        double dark = biases[channel] * biasClick[channel] * (1 - signal) * (1 - signal);
        double drive = Math.min(Math.pow(Math.max(signal, 0), GAMMA) * gain, most) + dark;
        return Math.max(peak * drive + floor * (1 + blackClick * black), 0);
    }

    private static double[] turned(double[] settings, int channel, double clicks) {
        double[] turned = settings.clone();
        turned[channel] += clicks;
        return turned;
    }
}
