package panelbook.colorimetry.simulation;

import java.util.Random;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;

/**
 * A meter: a fixed error of its own, noise relative to the light, and a floor.
 *
 * @param gainError relative error of every luminance, fixed for this meter
 * @param uError error of every u', fixed for this meter
 * @param vError error of every v', fixed for this meter
 * @param luminanceNoise standard deviation of a luminance, relative
 * @param chromaticityNoise standard deviation of u' and of v'
 * @param floor standard deviation of the dark signal, cd/m2; what reads below zero is given as zero
 */
public record Instrument(
        double gainError, double uError, double vError, double luminanceNoise, double chromaticityNoise, double floor) {

    /** Reads the truth. */
    public static final Instrument PERFECT = new Instrument(0, 0, 0, 0, 0, 0);

    /** A filter colorimeter of good class with a small error of its own. Invented figures. */
    public static final Instrument COLORIMETER = new Instrument(0.006, 0.0004, -0.0006, 0.001, 0.0001, 0.0005);

    /** A scanning spectroradiometer: truer, slower and noisier in the dark. Invented figures. */
    public static final Instrument SPECTRORADIOMETER = new Instrument(-0.003, -0.0001, 0.0001, 0.002, 0.0002, 0.003);

    /**
     * Reads a light.
     *
     * @param light X, Y, Z, cd/m2
     * @param random source of the noise
     * @return X, Y, Z as read, cd/m2, not negative; rounded to 6 digits after the point, as a meter's file prints it
     */
    public XYZ read(XYZ light, Random random) {
        double dark = floor * random.nextGaussian();
        double gain = (1 + gainError) * (1 + luminanceNoise * random.nextGaussian());
        double du = uError + chromaticityNoise * random.nextGaussian();
        double dv = vError + chromaticityNoise * random.nextGaussian();
        double luminance = Math.max(light.y() * gain + dark, 0);
        if (!light.hasChromaticity()) {
            return rounded(new XYZ(luminance, luminance, luminance));
        }
        UV1976 uv = light.uv1976().orElseThrow();
        return rounded(XYZ.of(new UV1976(uv.u() + du, uv.v() + dv), luminance));
    }

    /**
     * What a certificate of this meter would say.
     *
     * @param source key of its systematic error
     * @return standard uncertainties that cover its own error and noise
     */
    public InstrumentUncertainty uncertainty(String source) {
        return new InstrumentUncertainty(
                Math.hypot(gainError, luminanceNoise),
                luminanceNoise,
                Math.hypot(Math.max(Math.abs(uError), Math.abs(vError)), chromaticityNoise),
                chromaticityNoise,
                floor,
                source);
    }

    private static XYZ rounded(XYZ xyz) {
        return new XYZ(rounded(xyz.x()), rounded(xyz.y()), rounded(xyz.z()));
    }

    private static double rounded(double value) {
        return Math.max(Math.rint(value * 1e6) / 1e6, 0);
    }
}
