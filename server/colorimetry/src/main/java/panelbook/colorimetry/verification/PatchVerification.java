package panelbook.colorimetry.verification;

import java.util.OptionalDouble;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.Lab;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;

/** One patch of a run against its target. */
public final class PatchVerification {
    private final Reading reading;
    private final XYZ expected;
    private final double deltaEItp;
    private final double deltaE2000;

    private PatchVerification(Reading reading, XYZ expected, double deltaEItp, double deltaE2000) {
        this.reading = reading;
        this.expected = expected;
        this.deltaEItp = deltaEItp;
        this.deltaE2000 = deltaE2000;
    }

    static PatchVerification of(Reading reading, XYZ expected, XYZ white) {
        XYZ measured = reading.xyz();
        double itp = ColourDifference.itp(measured, expected);
        double ciede2000 = ColourDifference.ciede2000(Lab.of(measured, white), Lab.of(expected, white));
        return new PatchVerification(reading, expected, itp, ciede2000);
    }

    /**
     * The patch.
     *
     * @return in the run's code values
     */
    public Patch patch() {
        return reading.patch();
    }

    /**
     * What was measured.
     *
     * @return the reading as given
     */
    public Reading reading() {
        return reading;
    }

    /**
     * What the target asks of this display.
     *
     * @return X, Y, Z, cd/m2
     */
    public XYZ expected() {
        return expected;
    }

    /**
     * Delta E ITP from expected to measured.
     *
     * @return see {@link ColourDifference#itp(XYZ, XYZ)}
     */
    public double deltaEItp() {
        return deltaEItp;
    }

    /**
     * CIEDE2000 from expected to measured, against the target's white at the white luminance used.
     *
     * @return see {@link ColourDifference#ciede2000}
     */
    public double deltaE2000() {
        return deltaE2000;
    }

    /**
     * Error of luminance: 100 (measured - expected) / expected.
     *
     * @return percent, with sign; empty when no light is expected
     */
    public OptionalDouble luminanceErrorPercent() {
        if (expected.y() <= 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(100 * (reading.luminance() - expected.y()) / expected.y());
    }

    /**
     * Distance in u'v' from expected to measured.
     *
     * @return delta u'v'; empty when either is too dark to have a chromaticity
     */
    public OptionalDouble deltaUv() {
        if (!expected.hasChromaticity() || !reading.xyz().hasChromaticity()) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(ColourDifference.uv1976(
                reading.xyz().uv1976().orElseThrow(), expected.uv1976().orElseThrow()));
    }
}
