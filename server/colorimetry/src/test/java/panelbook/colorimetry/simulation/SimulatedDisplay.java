package panelbook.colorimetry.simulation;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.St2084;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.DisplayEotf;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Target;

/**
 * A display that was calibrated to a target when its panel had run for some hours, and what it shows later.
 *
 * <p>The chain: code to signal; the target's matrix to the display's own primaries, with what they cannot reach clipped;
 * a soft knee below peak; light per channel, aged since calibration; the leak of black. White is what the calibrator
 * left: the target's chromaticity, off by the white error. Immutable.
 */
public final class SimulatedDisplay {
    private final Builder set;

    private SimulatedDisplay(Builder set) {
        this.set = set;
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
     * This display, to be described anew.
     *
     * @return a builder that starts from this display
     */
    public Builder toBuilder() {
        return set.copy();
    }

    /**
     * The panel's technology.
     *
     * @return as its primaries say
     */
    public String technology() {
        return set.primaries.technology();
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
        Matrix3 seen = set.primaries.seen(instrument.filterShiftNm());
        List<Reading> readings = new ArrayList<>(patches.size());
        for (Patch patch : patches) {
            readings.add(new Reading(patch, instrument.read(seen, light.of(patch), random)));
        }
        return List.copyOf(readings);
    }

    /** What the display shows on one target at one age. */
    private final class Light {
        private final CodeValues codes;
        private final DisplayEotf eotf;
        private final Matrix3 targetToXyz;
        private final Matrix3 xyzToDrive;
        private final double limit;
        /** How much of each primary a drive of 1 gives, new and now, cd/m2. */
        private final double[] fresh;

        private final double[] aged;

        Light(Target target, double panelHours) {
            double shownPeak = Math.min(set.peak, target.aims().white());
            double shownBlack = Math.min(Math.max(target.aims().black(), set.leak), shownPeak / 10);
            boolean absolute = target.eotf() instanceof Eotf.Pq;
            Matrix3 primaries = set.primaries.seen(0);
            Chromaticity aim = target.space().white();
            double[] calibrated = gains(primaries, XYZ.of(aim, 1));
            codes = target.codes();
            // PQ asks for its absolute luminance and meets the knee; the others are scaled to what white shows
            eotf = target.eotf().on(new LuminanceRange(shownBlack, absolute ? St2084.PEAK : shownPeak));
            limit = absolute ? shownPeak : set.peak;
            targetToXyz = target.space().toXyz();
            xyzToDrive = primaries
                    .times(new Matrix3(calibrated[0], 0, 0, 0, calibrated[1], 0, 0, 0, calibrated[2]))
                    .inverse();
            fresh = gains(primaries, XYZ.of(new Chromaticity(aim.x() + set.whiteErrorX, aim.y() + set.whiteErrorY), 1));
            aged = aged(panelHours);
        }

        /** How much of each primary makes a white. */
        private static double[] gains(Matrix3 primaries, XYZ white) {
            XYZ gains = primaries.inverse().times(white.x(), white.y(), white.z());
            return new double[] {gains.x(), gains.y(), gains.z()};
        }

        private double[] aged(double panelHours) {
            double[] left = fresh.clone();
            for (int i = 0; i < 3; i++) {
                Ageing ageing = set.ageing[i];
                left[i] *= set.gains[i] * ageing.remaining(panelHours) / ageing.remaining(set.calibratedAtHours);
            }
            return left;
        }

        /** How much of each primary a patch gives, cd/m2. */
        XYZ of(Patch patch) {
            double[] asked = eotf.light(
                    codes.toSignal(patch.red()), codes.toSignal(patch.green()), codes.toSignal(patch.blue()));
            double leak = set.leak;
            // the calibrator measured the leak along with the light, and so left it out of the drive
            XYZ wanted = targetToXyz.times(asked[0] - leak, asked[1] - leak, asked[2] - leak);
            XYZ drive = xyzToDrive.times(wanted.x(), wanted.y(), wanted.z());
            return new XYZ(
                    aged[0] * rolledOff(drive.x()) + fresh[0] * leak,
                    aged[1] * rolledOff(drive.y()) + fresh[1] * leak,
                    aged[2] * rolledOff(drive.z()) + fresh[2] * leak);
        }

        /** Straight up to the knee, then bending towards the limit, which it meets at infinite drive. */
        private double rolledOff(double drive) {
            double knee = set.kneeStart * limit;
            double light = Math.max(drive, 0);
            if (set.kneeStart >= 1 || light <= knee) {
                return Math.min(light, limit);
            }
            double room = limit - knee;
            return knee + room * -Math.expm1(-(light - knee) / room);
        }
    }

    /** Describes a display. */
    public static final class Builder {
        private final Primaries primaries;
        private double peak = 1000;
        private double leak = 0.005;
        private double kneeStart = 1;
        private double whiteErrorX;
        private double whiteErrorY;
        private Ageing[] ageing = {Ageing.NONE, Ageing.NONE, Ageing.NONE};
        private double calibratedAtHours;
        private double[] gains = {1, 1, 1};

        private Builder(Primaries primaries) {
            this.primaries = primaries;
        }

        private Builder copy() {
            Builder b = new Builder(primaries);
            b.peak = peak;
            b.leak = leak;
            b.kneeStart = kneeStart;
            b.whiteErrorX = whiteErrorX;
            b.whiteErrorY = whiteErrorY;
            b.ageing = ageing;
            b.calibratedAtHours = calibratedAtHours;
            b.gains = gains;
            return b;
        }

        /**
         * Sets the most that white can give.
         *
         * @param luminance cd/m2
         * @return this builder
         */
        public Builder peak(double luminance) {
            peak = luminance;
            return this;
        }

        /**
         * Sets the light that black leaks; it does not age.
         *
         * @param luminance cd/m2
         * @return this builder
         */
        public Builder leak(double luminance) {
            leak = luminance;
            return this;
        }

        /**
         * Sets where channels begin to bend towards the peak.
         *
         * @param share of the peak, 0 to 1; 1 for a hard clip
         * @return this builder
         */
        public Builder rollOffFrom(double share) {
            kneeStart = share;
            return this;
        }

        /**
         * Sets how far from the target's the calibrator left the white.
         *
         * @param x error of x
         * @param y error of y
         * @return this builder
         */
        public Builder whiteError(double x, double y) {
            whiteErrorX = x;
            whiteErrorY = y;
            return this;
        }

        /**
         * Sets the ageing of each channel.
         *
         * @param red of red
         * @param green of green
         * @param blue of blue
         * @return this builder
         */
        public Builder ageing(Ageing red, Ageing green, Ageing blue) {
            ageing = new Ageing[] {red, green, blue};
            return this;
        }

        /**
         * Sets the hours of use at which the calibration made up for the ageing until then.
         *
         * @param panelHours h
         * @return this builder
         */
        public Builder calibratedAt(double panelHours) {
            calibratedAtHours = panelHours;
            return this;
        }

        /**
         * Turns the gains in the menu, on top of the calibration.
         *
         * @param red what the light of red is multiplied by; 1 as calibrated
         * @param green likewise
         * @param blue likewise
         * @return this builder
         */
        public Builder gains(double red, double green, double blue) {
            gains = new double[] {red, green, blue};
            return this;
        }

        /**
         * Makes the display.
         *
         * @return the display
         */
        public SimulatedDisplay build() {
            return new SimulatedDisplay(copy());
        }
    }
}
