package panelbook.colorimetry.simulation;

import java.util.Random;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;

/**
 * A meter: filters that lie a little off the colour-matching functions, so that it errs alike on like spectra and
 * differently on others; noise relative to the light; and a floor.
 *
 * @param filterShiftNm how far the filters lie to longer waves, nm
 * @param luminanceNoise standard deviation of a luminance, relative
 * @param chromaticityNoise standard deviation of u' and of v'
 * @param floor standard deviation of the dark signal, cd/m2; what reads below zero is given as zero
 * @param statedLuminance standard uncertainty of a luminance on its certificate, relative, full
 * @param statedChromaticity standard uncertainty of u' and of v' on its certificate, full
 */
public record Instrument(
        double filterShiftNm,
        double luminanceNoise,
        double chromaticityNoise,
        double floor,
        double statedLuminance,
        double statedChromaticity) {

    /** Reads the truth. */
    public static final Instrument PERFECT = new Instrument(0, 0, 0, 0, 0, 0);

    /** A filter colorimeter of good class. Invented figures. */
    public static final Instrument COLORIMETER = new Instrument(0.25, 0.001, 0.0001, 0.0005, 0.015, 0.002);

    /** A spectroradiometer: truer, and noisier in the dark. Invented figures. */
    public static final Instrument SPECTRORADIOMETER = new Instrument(-0.05, 0.002, 0.0002, 0.003, 0.01, 0.0008);

    /**
     * Reads a light.
     *
     * @param seen what this meter sees of the primaries: {@link Primaries#seen} at its {@link #filterShiftNm}
     * @param light how much of each primary, cd/m2
     * @param random source of the noise
     * @return X, Y, Z as read, cd/m2, not negative; rounded to 6 digits after the point, as a meter's file prints it
     */
    XYZ read(Matrix3 seen, XYZ light, Random random) {
        XYZ noiseless = seen.times(light.x(), light.y(), light.z());
        double dark = floor * random.nextGaussian();
        double luminance = noiseless.y() * (1 + luminanceNoise * random.nextGaussian()) + dark;
        double du = chromaticityNoise * random.nextGaussian();
        double dv = chromaticityNoise * random.nextGaussian();
        if (!noiseless.hasChromaticity()) {
            return rounded(new XYZ(luminance, luminance, luminance));
        }
        UV1976 uv = noiseless.uv1976().orElseThrow();
        return rounded(XYZ.of(new UV1976(uv.u() + du, uv.v() + dv), luminance));
    }

    /**
     * What the certificate of this meter says.
     *
     * @param source key of its systematic error: name the meter and the panel's technology
     * @return standard uncertainties
     */
    public InstrumentUncertainty uncertainty(String source) {
        return new InstrumentUncertainty(
                statedLuminance, luminanceNoise, statedChromaticity, chromaticityNoise, floor, source);
    }

    private static XYZ rounded(XYZ xyz) {
        return new XYZ(rounded(xyz.x()), rounded(xyz.y()), rounded(xyz.z()));
    }

    private static double rounded(double value) {
        return Math.max(Math.rint(value * 1e6) / 1e6, 0);
    }
}
