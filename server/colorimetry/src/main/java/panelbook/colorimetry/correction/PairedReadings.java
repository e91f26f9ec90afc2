package panelbook.colorimetry.correction;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;

/**
 * The four colours of one display as the reference instrument and the field meter read them. Cannot exist when they make
 * no correction.
 *
 * @param reference read by the reference instrument
 * @param field read by the field meter, raw: no correction applied
 */
public record PairedReadings(FourColours reference, FourColours field) {
    /** A tenth of the area of the triangle of BT.709 in xy, doubled, as the determinant gives it. House rule. */
    private static final double LEAST_DOUBLED_AREA = 0.0224;

    /** No meter that still measures colour is further off in u'v' (house rule); red and green lie some 0.35 apart. */
    private static final double MOST_DISAGREEMENT_UV = 0.1;

    /** Nor further off in luminance, up or down (house rule); more is another display state or another unit. */
    private static final double MOST_LUMINANCE_RATIO = 2;

    /**
     * Checks the pairs.
     *
     * @throws CorrectionRefused with every fault found
     */
    public PairedReadings {
        List<Fault> faults = new ArrayList<>(dark("reference", reference));
        faults.addAll(dark("field", field));
        if (faults.isEmpty()) {
            faults.addAll(degenerate("reference", reference));
            faults.addAll(degenerate("field", field));
            faults.addAll(disagreements(reference, field));
        }
        if (!faults.isEmpty()) {
            throw new CorrectionRefused(faults);
        }
    }

    /**
     * The four pairs out of two runs of the same patches.
     *
     * @param reference run of the reference instrument
     * @param field run of the field meter, raw
     * @return for each primary the brightest patch of it alone that both runs hold, matched by signal level, and white
     * @throws CorrectionRefused when a run lacks one of the patches, or the pairs are no good
     */
    public static PairedReadings of(Readings reference, Readings field) {
        List<Fault> faults = new ArrayList<>();
        Map<FourColour, Reading[]> pairs = new EnumMap<>(FourColour.class);
        for (FourColour colour : FourColour.values()) {
            pair(colour, reference, field)
                    .ifPresentOrElse(
                            pair -> pairs.put(colour, pair),
                            () -> faults.add(new Fault(
                                    Fault.Reason.PATCH_MISSING,
                                    name(colour) + " alone is not in both runs; measure it with both instruments")));
        }
        if (!faults.isEmpty()) {
            throw new CorrectionRefused(faults);
        }
        return new PairedReadings(side(pairs, 0), side(pairs, 1));
    }

    private static FourColours side(Map<FourColour, Reading[]> pairs, int side) {
        XYZ[] xyz = new XYZ[4];
        pairs.forEach((colour, pair) -> xyz[colour.ordinal()] = pair[side].xyz());
        return new FourColours(xyz[0], xyz[1], xyz[2], xyz[3]);
    }

    private static Optional<Reading[]> pair(FourColour colour, Readings reference, Readings field) {
        Reading[] best = null;
        for (Reading r : reference.all()) {
            if (isOf(colour, r.patch(), reference) && (best == null || code(r) > code(best[0]))) {
                Optional<Reading> f = field.atLevelOf(r.patch(), reference.codes());
                best = f.isPresent() ? new Reading[] {r, f.get()} : best;
            }
        }
        return Optional.ofNullable(best);
    }

    private static int code(Reading r) {
        return Math.max(r.patch().red(), Math.max(r.patch().green(), r.patch().blue()));
    }

    private static boolean isOf(FourColour colour, Patch p, Readings run) {
        int black = run.codes().black();
        return switch (colour) {
            case RED -> p.red() > black && p.green() == black && p.blue() == black;
            case GREEN -> p.green() > black && p.red() == black && p.blue() == black;
            case BLUE -> p.blue() > black && p.red() == black && p.green() == black;
            case WHITE -> p.equals(Patch.grey(run.codes().white()));
        };
    }

    private static List<Fault> dark(String who, FourColours read) {
        List<Fault> faults = new ArrayList<>();
        for (FourColour colour : FourColour.values()) {
            XYZ xyz = read.of(colour);
            if (!xyz.hasChromaticity() || xyz.x() + xyz.y() + xyz.z() <= 0) {
                faults.add(new Fault(
                        Fault.Reason.NO_LIGHT,
                        who + " reading of " + name(colour) + " holds no light: " + xyz
                                + "; check that the meter was on the patch"));
            }
        }
        return faults;
    }

    private static List<Fault> degenerate(String who, FourColours read) {
        Matrix3 primaries = FourColourMatrix.chromaticities(read);
        if (Math.abs(primaries.determinant()) < LEAST_DOUBLED_AREA) {
            return List.of(new Fault(
                    Fault.Reason.PRIMARIES_ON_A_LINE,
                    who + " readings of red, green and blue span next to no triangle in xy (twice its area is "
                            + Math.abs(primaries.determinant()) + ", at least " + LEAST_DOUBLED_AREA
                            + " is needed); check for a patch read twice"));
        }
        XYZ shares = FourColourMatrix.shares(primaries, read.white());
        if (Math.min(shares.x(), Math.min(shares.y(), shares.z())) <= 0) {
            return List.of(new Fault(
                    Fault.Reason.WHITE_OUTSIDE_PRIMARIES,
                    who + " reading of white lies outside the triangle of red, green and blue; check which patch it"
                            + " was, and for stray light"));
        }
        return List.of();
    }

    private static List<Fault> disagreements(FourColours reference, FourColours field) {
        List<Fault> faults = new ArrayList<>();
        for (FourColour colour : FourColour.values()) {
            XYZ r = reference.of(colour);
            XYZ f = field.of(colour);
            double apart =
                    ColourDifference.uv1976(r.uv1976().orElseThrow(), f.uv1976().orElseThrow());
            double ratio = f.y() / r.y();
            // a luminance enters by white alone; a primary's may be far off in a meter with poor filters
            boolean brighter = colour == FourColour.WHITE && Math.max(ratio, 1 / ratio) > MOST_LUMINANCE_RATIO;
            if (apart > MOST_DISAGREEMENT_UV || brighter) {
                faults.add(new Fault(
                        Fault.Reason.PAIR_DISAGREES,
                        "the two readings of " + name(colour) + " differ by " + apart + " in u'v' and by a factor of "
                                + ratio + " in luminance, more than a meter errs (" + MOST_DISAGREEMENT_UV + ", "
                                + MOST_LUMINANCE_RATIO + "); check that both read the same patch of the same display"));
            }
        }
        return faults;
    }

    private static String name(FourColour colour) {
        return switch (colour) {
            case RED -> "red";
            case GREEN -> "green";
            case BLUE -> "blue";
            case WHITE -> "white";
        };
    }
}
