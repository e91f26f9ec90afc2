package panelbook.colorimetry.verification;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import panelbook.colorimetry.Cct;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.Require;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.ExpectedColours;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.Target;

/**
 * A run against its target. Immutable.
 *
 * <p>Black and white luminance for the expected colours are those that the run measured, else the target's aims: PQ is
 * clipped at that white and held above that black; BT.1886, HLG and power run from that black to that white. So the
 * patches show the shape of the tone curve and the colour, and the error of the white against its aim stands by itself.
 */
public final class Verification {
    /**
     * Expected luminance from which errors of luminance and delta u'v' enter the figures of the run unless told
     * otherwise, cd/m2: below it they mostly show noise. Common practice, no published source.
     */
    public static final double DEFAULT_FLOOR = 0.5;

    private final Target target;
    private final Readings readings;
    private final double floor;
    private final Set<Remark> remarks = EnumSet.noneOf(Remark.class);
    private final LuminanceRange luminance;
    private final List<PatchVerification> patches;
    private final List<PatchVerification> aboveFloor;
    private final Optional<GreyTracking> greyTracking;
    private final OptionalDouble gamutCoverage;

    private Verification(Target target, Readings readings, double floor) {
        this.target = target;
        this.readings = readings;
        this.floor = floor;
        this.luminance = luminanceOf(target, readings, remarks);
        this.patches = verify(target.on(luminance), readings);
        this.aboveFloor =
                patches.stream().filter(p -> p.expected().y() >= floor).toList();
        this.greyTracking = GreyTracking.of(aboveFloor);
        this.gamutCoverage = GamutCoverage.of(target.space(), readings);
        remarkIf(greyTracking.isEmpty(), Remark.GREYS_NOT_MEASURED);
        remarkIf(gamutCoverage.isEmpty(), Remark.PRIMARIES_NOT_MEASURED);
        remarkIf(readings.black().filter(r -> r.luminance() == 0).isPresent(), Remark.BLACK_READS_ZERO);
    }

    private void remarkIf(boolean condition, Remark remark) {
        if (condition) {
            remarks.add(remark);
        }
    }

    /**
     * Verifies a run, with {@link #DEFAULT_FLOOR}.
     *
     * @param target what the preset is calibrated to
     * @param readings in the target's code values; may be empty: then every figure is absent
     * @return the verification
     * @throws IllegalArgumentException when a code is no video in the target's range or a patch repeats
     */
    public static Verification of(Target target, List<Reading> readings) {
        return of(target, Readings.of(target.codes(), readings), DEFAULT_FLOOR);
    }

    /**
     * Verifies a run.
     *
     * @param target what the preset is calibrated to
     * @param readings in the target's code values; may be empty: then every figure is absent
     * @param floor expected luminance from which errors of luminance and delta u'v' enter the figures of the run, cd/m2,
     *     greater than zero
     * @return the verification
     * @throws IllegalArgumentException when the readings were sent in other code values than the target's
     */
    public static Verification of(Target target, Readings readings, double floor) {
        if (!readings.codes().equals(target.codes())) {
            throw new IllegalArgumentException(
                    "the readings are in " + readings.codes() + ", but the target asks for " + target.codes());
        }
        return new Verification(target, readings, Require.positive("floor in cd/m2", floor));
    }

    private static LuminanceRange luminanceOf(Target target, Readings readings, Set<Remark> remarks) {
        Optional<Reading> white = readings.white();
        Optional<Reading> black = readings.black();
        if (white.isEmpty()) {
            remarks.add(Remark.WHITE_NOT_MEASURED);
        }
        if (black.isEmpty()) {
            remarks.add(Remark.BLACK_NOT_MEASURED);
        }
        double whiteLuminance =
                white.map(Reading::luminance).orElse(target.aims().white());
        double blackLuminance =
                black.map(Reading::luminance).orElse(target.aims().black());
        if (whiteLuminance <= blackLuminance) {
            remarks.add(Remark.WHITE_NOT_ABOVE_BLACK);
            return target.aims();
        }
        return new LuminanceRange(blackLuminance, whiteLuminance);
    }

    private static List<PatchVerification> verify(ExpectedColours expected, Readings readings) {
        XYZ white = expected.white();
        List<PatchVerification> result = new ArrayList<>(readings.all().size());
        for (Reading reading : readings.all()) {
            result.add(PatchVerification.of(reading, expected.of(reading.patch()), white));
        }
        return List.copyOf(result);
    }

    /**
     * Each patch.
     *
     * @return in the order taken
     */
    public List<PatchVerification> patches() {
        return patches;
    }

    /**
     * The black and white luminance that the expected colours rest on.
     *
     * @return measured where the run has them, else the target's aims; the remarks say which
     */
    public LuminanceRange luminance() {
        return luminance;
    }

    /**
     * The expected luminance from which errors of luminance and delta u'v' enter the figures of the run.
     *
     * @return cd/m2
     */
    public double floor() {
        return floor;
    }

    /**
     * What is missing, and what was used instead.
     *
     * @return empty when nothing is
     */
    public Set<Remark> remarks() {
        return Set.copyOf(remarks);
    }

    /**
     * Delta E ITP over all patches.
     *
     * @return empty when the run has no readings
     */
    public Optional<Statistic> deltaEItp() {
        return Statistic.of(patches, p -> OptionalDouble.of(p.deltaEItp()));
    }

    /**
     * CIEDE2000 over all patches.
     *
     * @return empty when the run has no readings
     */
    public Optional<Statistic> deltaE2000() {
        return Statistic.of(patches, p -> OptionalDouble.of(p.deltaE2000()));
    }

    /**
     * Magnitude of the luminance error over the patches at or above the floor.
     *
     * @return percent; empty when there are none
     */
    public Optional<Statistic> luminanceErrorPercent() {
        return Statistic.of(aboveFloor, PatchVerification::luminanceErrorPercent);
    }

    /**
     * Delta u'v' over the patches at or above the floor.
     *
     * @return no unit; empty when there are none
     */
    public Optional<Statistic> deltaUv() {
        return Statistic.of(aboveFloor, PatchVerification::deltaUv);
    }

    /**
     * Greyscale tracking over the greys at or above the floor.
     *
     * @return empty when there are none
     */
    public Optional<GreyTracking> greyTracking() {
        return greyTracking;
    }

    /**
     * Measured white luminance against the target's peak: 100 (measured - aim) / aim.
     *
     * @return percent, with sign; empty when white was not measured
     */
    public OptionalDouble whiteLuminanceErrorPercent() {
        double aim = target.aims().white();
        return readings.white().stream()
                .mapToDouble(white -> 100 * (white.luminance() - aim) / aim)
                .findFirst();
    }

    /**
     * Distance of the measured white from the target's in u'v'.
     *
     * @return delta u'v'; empty when white was not measured or is dark
     */
    public OptionalDouble whiteDeltaUv() {
        UV1976 aim = target.space().white().toUV1976();
        return whiteUv().stream()
                .mapToDouble(uv -> ColourDifference.uv1976(uv, aim))
                .findFirst();
    }

    /**
     * Correlated colour temperature and Duv of the measured white.
     *
     * @return the answer, which may be that the white has none; empty when white was not measured or is dark
     */
    public Optional<Cct> whiteCct() {
        return whiteUv().map(uv -> Cct.of(uv.toUV1960()));
    }

    private Optional<UV1976> whiteUv() {
        return readings.white().flatMap(r -> r.xyz().uv1976());
    }

    /**
     * Contrast: measured white luminance over measured black luminance.
     *
     * @return a ratio; empty when either was not measured or black reads zero, as the remarks say
     */
    public OptionalDouble contrast() {
        double black = readings.black().map(Reading::luminance).orElse(0.0);
        return readings.white().stream()
                .filter(white -> black > 0)
                .mapToDouble(white -> white.luminance() / black)
                .findFirst();
    }

    /**
     * The share of the target's u'v' triangle that lies inside the measured one.
     *
     * @return 0 to 1; empty when a patch of one primary alone is missing or dark
     */
    public OptionalDouble gamutCoverage() {
        return gamutCoverage;
    }
}
