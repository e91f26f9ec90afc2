package panelbook.colorimetry.signal;

import java.util.Arrays;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.XYZ;

/**
 * The colours that a target asks of a display with a given black and white.
 *
 * <p>Conditions: an ideal additive display. PQ is clipped per channel at white and held above black; the other EOTFs run
 * from that black to that white, so that a relative target is not blamed twice for a wrong white. Not safe for use by
 * several threads: each keeps the light of the codes it has met.
 */
public final class ExpectedColours {
    /** A table of every code is kept up to this depth: 32 KB; above it each is worked out anew. */
    private static final int TABLE_BITS = 12;

    private final Target target;
    private final LuminanceRange range;
    private final DisplayEotf eotf;
    private final Matrix3 toXyz;
    private final double[] channelOfCode;
    private final double[] rgb = new double[3];

    ExpectedColours(Target target, LuminanceRange range) {
        this.target = target;
        this.range = range;
        this.eotf = target.eotf().on(range);
        this.toXyz = target.space().toXyz();
        this.channelOfCode = new double
                [target.codes().bitDepth() <= TABLE_BITS ? 1 << target.codes().bitDepth() : 0];
        Arrays.fill(channelOfCode, Double.NaN);
    }

    /**
     * The colour that a patch should show.
     *
     * @param patch in the target's code values
     * @return X, Y, Z, cd/m2
     * @throws IllegalArgumentException when a code is no video in the target's range
     */
    public XYZ of(Patch patch) {
        rgb[0] = channel(patch.red());
        rgb[1] = channel(patch.green());
        rgb[2] = channel(patch.blue());
        eotf.toDisplay(rgb);
        return toXyz.times(rgb[0], rgb[1], rgb[2]);
    }

    /**
     * The white of the display in the target's chromaticity.
     *
     * @return X, Y, Z, cd/m2
     */
    public XYZ white() {
        return XYZ.of(target.space().white(), range.white());
    }

    private double channel(int code) {
        if (code >= channelOfCode.length) {
            return eotf.channel(target.codes().toSignal(code));
        }
        double known = channelOfCode[code];
        if (Double.isNaN(known)) {
            known = eotf.channel(target.codes().toSignal(code));
            channelOfCode[code] = known;
        }
        return known;
    }
}
