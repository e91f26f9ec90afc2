package panelbook.app.fleet;

import panelbook.app.rest.Checks;
import panelbook.wire.EotfKind;
import panelbook.wire.Primaries;
import panelbook.wire.TargetDraft;

/** Whether a target can be aimed at. */
final class TargetChecks {

    /** Above what the perceptual quantiser can carry there is nothing to aim at: SMPTE ST 2084, 10 000 cd/m². */
    private static final double MOST_LUMINANCE = 10_000;

    /** Twice the area of a triangle in x, y below which its matrix says more about rounding than about colour. */
    private static final double LEAST_DOUBLE_AREA = 1e-3;

    private TargetChecks() {}

    /** Notes what is wrong with {@code draft}, which {@code at} points to; the tolerance set is not looked at. */
    static Checks of(Checks checks, String at, TargetDraft draft) {
        checks.name(at + "/name", draft.name());
        primaries(checks, at + "/primaries", draft.primaries());
        if (draft.eotf() == EotfKind.POWER) {
            checks.that(draft.gamma() != null, at + "/gamma", "The power EOTF needs its exponent.");
        } else {
            checks.that(
                    draft.gamma() == null,
                    at + "/gamma",
                    "Only the power EOTF takes an exponent; " + draft.eotf() + " has its own curve.");
        }
        if (draft.gamma() != null) {
            checks.range(at + "/gamma", draft.gamma(), 1, 5);
        }
        checks.range(at + "/bitDepth", draft.bitDepth(), 8, 16);
        checks.that(
                draft.peakLuminance() > 0 && draft.peakLuminance() <= MOST_LUMINANCE,
                at + "/peakLuminance",
                "Must be more than 0 and at most 10000 cd/m2, but is " + draft.peakLuminance() + ".");
        return checks.that(
                draft.blackLuminance() >= 0 && draft.blackLuminance() < draft.peakLuminance(),
                at + "/blackLuminance",
                "Must be at least 0 and less than the peak, but is " + draft.blackLuminance() + " cd/m2.");
    }

    private static void primaries(Checks checks, String at, Primaries p) {
        var inside = chromaticity(checks, at + "/red", p.redX(), p.redY())
                & chromaticity(checks, at + "/green", p.greenX(), p.greenY())
                & chromaticity(checks, at + "/blue", p.blueX(), p.blueY())
                & chromaticity(checks, at + "/white", p.whiteX(), p.whiteY());
        if (!inside) {
            return;
        }
        var area = turn(p.redX(), p.redY(), p.greenX(), p.greenY(), p.blueX(), p.blueY());
        if (Math.abs(area) < LEAST_DOUBLE_AREA) {
            checks.that(false, at, "Red, green and blue lie in one line: they span no gamut.");
        } else if (area < 0) {
            checks.that(false, at, "Red, green and blue run the wrong way round the diagram: two are swapped.");
        } else {
            checks.that(whiteInside(p), at + "/whiteX", "White lies outside the triangle of the primaries.");
        }
    }

    private static boolean chromaticity(Checks checks, String at, double x, double y) {
        var good = x >= 0 && y > 0 && x + y <= 1;
        checks.that(
                good,
                at + "X",
                "x = " + x + ", y = " + y + " is no chromaticity: x >= 0, y > 0 and x + y <= 1 must hold.");
        return good;
    }

    private static boolean whiteInside(Primaries p) {
        return turn(p.redX(), p.redY(), p.greenX(), p.greenY(), p.whiteX(), p.whiteY()) > 0
                && turn(p.greenX(), p.greenY(), p.blueX(), p.blueY(), p.whiteX(), p.whiteY()) > 0
                && turn(p.blueX(), p.blueY(), p.redX(), p.redY(), p.whiteX(), p.whiteY()) > 0;
    }

    /** Twice the signed area of the triangle a, b, c: positive when it runs counter-clockwise. */
    private static double turn(double ax, double ay, double bx, double by, double cx, double cy) {
        return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    }
}
