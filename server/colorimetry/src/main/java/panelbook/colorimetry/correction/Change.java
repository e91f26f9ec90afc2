package panelbook.colorimetry.correction;

import java.util.Optional;
import java.util.OptionalDouble;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Patch;

/**
 * One patch in two versions.
 *
 * @param patch which
 * @param before X, Y, Z, cd/m2
 * @param after X, Y, Z, cd/m2
 */
public record Change(Patch patch, XYZ before, XYZ after) {

    /**
     * How far the colour moves.
     *
     * @return delta E ITP
     */
    public double deltaEItp() {
        return ColourDifference.itp(before, after);
    }

    /**
     * Where the chromaticity moves.
     *
     * @return after minus before in u' and v'; empty when one of them has no chromaticity
     */
    public Optional<UV1976> deltaUv() {
        return before.uv1976().flatMap(b -> after.uv1976().map(a -> new UV1976(a.u() - b.u(), a.v() - b.v())));
    }

    /**
     * How far the chromaticity moves.
     *
     * @return delta u'v'; empty when one of them has no chromaticity
     */
    public OptionalDouble deltaUvDistance() {
        return deltaUv().map(d -> OptionalDouble.of(Math.hypot(d.u(), d.v()))).orElse(OptionalDouble.empty());
    }

    /**
     * How the luminance moves.
     *
     * @return 100 (after / before - 1), percent; empty when there was no light before
     */
    public OptionalDouble luminancePercent() {
        return before.y() > 0 ? OptionalDouble.of(100 * (after.y() / before.y() - 1)) : OptionalDouble.empty();
    }
}
