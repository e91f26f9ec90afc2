package panelbook.colorimetry.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.DisplayEotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Target;

/**
 * A display that was calibrated to a target when its panel had run for some hours, and what it shows later.
 *
 * <p>The chain: code to signal; the target's matrix to the display's own primaries, with what they cannot reach clipped;
 * a soft knee below peak; light per channel, aged since calibration; the leak of black. White is what the calibrator
 * left: the target's chromaticity, off by {@code whiteError}. Immutable.
 */
public final class SimulatedDisplay {
    private final Primaries primaries;
    private final double peak;
    private final double leak;
    private final double kneeStart;
    private final double whiteErrorX;
    private final double whiteErrorY;
    private final Ageing red;
    private final Ageing green;
    private final Ageing blue;
    private final double calibratedAtHours;
    private final double[] gains;

    private SimulatedDisplay(Builder b) {
        this.primaries = b.primaries;
        this.peak = b.peak;
        this.leak = b.leak;
        this.kneeStart = b.kneeStart;
        this.whiteErrorX = b.whiteErrorX;
        this.whiteErrorY = b.whiteErrorY;
        this.red = b.red;
        this.green = b.green;
        this.blue = b.blue;
        this.calibratedAtHours = b.calibratedAtHours;
        this.gains = b.gains.clone();
    }

    /**
     * A display, to be described further.
     *
     * @param primaries its light
     * @return a builder with a peak of 1000 cd/m2, a leak of 0.005 cd/m2, no roll-off, no ageing, no error
     */
    public static Builder builder(Primaries primaries) {
        return new Builder(primaries);
    }

    /**
     * The panel's technology.
     *
     * @return as its primaries say
     */
    public String technology() {
        return primaries.technology();
    }

    /**
     * Measures patches.
     *
     * @param target what the display is calibrated to
     * @param patches in the target's code values
     * @param panelHours hours of use of the panel, not below those at calibration
     * @param instrument the meter
     * @param random source of its noise
     * @return readings in the order of the patches
     */
    public List<Reading> measure(
            Target target, List<Patch> patches, double panelHours, Instrument instrument, Random random) {
        Light light = new Light(target, panelHours);
        List<Reading> readings = new ArrayList<>(patches.size());
        for (Patch patch : patches) {
            readings.add(new Reading(patch, instrument.read(light.of(patch), random)));
        }
        return List.copyOf(readings);
    }

    /** What the display shows on one target at one age. */
    private final class Light {
        private final CodeValues codes;
        private final DisplayEotf eotf;
        private final Matrix3 targetToXyz;
        private final Matrix3 displayToXyz;
        private final Matrix3 xyzToDisplay;
        private final double displayPeak;
        private final double[] remaining;
        private final XYZ black;

        Light(Target target, double panelHours) {
            Chromaticity aim = target.space().white();
            XYZ white = XYZ.of(new Chromaticity(aim.x() + whiteErrorX, aim.y() + whiteErrorY), 1);
            codes = target.codes();
            displayPeak = Math.min(peak, target.aims().white());
            eotf = target.eotf()
                    .on(new LuminanceRange(Math.min(target.aims().black(), displayPeak / 100), displayPeak));
            targetToXyz = target.space().toXyz();
            displayToXyz = balanced(white);
            xyzToDisplay = balanced(XYZ.of(aim, 1)).inverse();
            remaining = remaining(panelHours);
            black = white.times(leak);
        }

        /** Columns: the primaries, each with the gain that makes equal drives the given white. */
        private Matrix3 balanced(XYZ white) {
            XYZ r = primaries.red();
            XYZ g = primaries.green();
            XYZ b = primaries.blue();
            Matrix3 raw = new Matrix3(r.x(), g.x(), b.x(), r.y(), g.y(), b.y(), r.z(), g.z(), b.z());
            XYZ gain = raw.inverse().times(white.x(), white.y(), white.z());
            return raw.times(new Matrix3(gain.x(), 0, 0, 0, gain.y(), 0, 0, 0, gain.z()));
        }

        private double[] remaining(double panelHours) {
            Ageing[] ageing = {red, green, blue};
            double[] left = new double[3];
            for (int i = 0; i < 3; i++) {
                left[i] = gains[i] * ageing[i].remaining(panelHours) / ageing[i].remaining(calibratedAtHours);
            }
            return left;
        }

        XYZ of(Patch patch) {
            double[] asked = eotf.light(
                    codes.toSignal(patch.red()), codes.toSignal(patch.green()), codes.toSignal(patch.blue()));
            XYZ wanted = targetToXyz.times(asked[0], asked[1], asked[2]);
            XYZ drive = xyzToDisplay.times(wanted.x(), wanted.y(), wanted.z());
            return displayToXyz
                    .times(
                            remaining[0] * rolledOff(drive.x()),
                            remaining[1] * rolledOff(drive.y()),
                            remaining[2] * rolledOff(drive.z()))
                    .plus(black);
        }

        /** Straight up to the knee, then bending towards the peak that it meets at infinite drive. */
        private double rolledOff(double drive) {
            double knee = kneeStart * displayPeak;
            double clipped = Math.max(drive, 0);
            if (kneeStart >= 1 || clipped <= knee) {
                return Math.min(clipped, displayPeak);
            }
            double room = displayPeak - knee;
            return knee + room * -Math.expm1(-(clipped - knee) / room);
        }
    }

    /**
     * The same display after someone turned its gains.
     *
     * @param byRed what the light of red is multiplied by
     * @param byGreen likewise
     * @param byBlue likewise
     * @return the display as it is then
     */
    public SimulatedDisplay turned(double byRed, double byGreen, double byBlue) {
        Builder b = new Builder(primaries)
                .peak(peak)
                .leak(leak)
                .rollOffFrom(kneeStart)
                .whiteError(whiteErrorX, whiteErrorY)
                .ageing(red, green, blue)
                .calibratedAt(calibratedAtHours);
        b.gains = new double[] {gains[0] * byRed, gains[1] * byGreen, gains[2] * byBlue};
        return b.build();
    }

    /** Describes a display. */
    public static final class Builder {
        private final Primaries primaries;
        private double peak = 1000;
        private double leak = 0.005;
        private double kneeStart = 1;
        private double whiteErrorX;
        private double whiteErrorY;
        private Ageing red = Ageing.NONE;
        private Ageing green = Ageing.NONE;
        private Ageing blue = Ageing.NONE;
        private double calibratedAtHours;
        private double[] gains = {1, 1, 1};

        private Builder(Primaries primaries) {
            this.primaries = primaries;
        }

        /** Sets the most that white can give, cd/m2. */
        public Builder peak(double luminance) {
            peak = luminance;
            return this;
        }

        /** Sets the light that black leaks, cd/m2; it does not age. */
        public Builder leak(double luminance) {
            leak = luminance;
            return this;
        }

        /** Sets the share of the peak above which channels bend, 0 to 1; 1 for a hard clip. */
        public Builder rollOffFrom(double share) {
            kneeStart = share;
            return this;
        }

        /** Sets how far the calibrator left the white from the target's, in x and y. */
        public Builder whiteError(double x, double y) {
            whiteErrorX = x;
            whiteErrorY = y;
            return this;
        }

        /** Sets the ageing of each channel. */
        public Builder ageing(Ageing ofRed, Ageing ofGreen, Ageing ofBlue) {
            red = ofRed;
            green = ofGreen;
            blue = ofBlue;
            return this;
        }

        /** Sets the hours of use at which the calibration made up for the ageing until then, h. */
        public Builder calibratedAt(double panelHours) {
            calibratedAtHours = panelHours;
            return this;
        }

        /** Makes the display. */
        public SimulatedDisplay build() {
            return new SimulatedDisplay(this);
        }
    }
}
