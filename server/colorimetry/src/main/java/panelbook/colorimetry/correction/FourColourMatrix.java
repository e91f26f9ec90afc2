package panelbook.colorimetry.correction;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.Require;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Reading;

/**
 * A correction by the four-colour matrix method.
 *
 * <p>The matrix rests on chromaticities alone, so that the luminance noise of the readings, and a display that flickers
 * or ages between the two instruments, drop out; the luminance is then scaled by one factor, from white.
 *
 * <p>Conditions: right for additive mixtures of the primaries that it was made on, dark ones included as long as the
 * meter's zero is; on a display with other spectra it may be worse than no correction. Source: Ohno and Hardis, Proc.
 * IS&amp;T 5th Color Imaging Conf. (1997) 301-305; Ohno and Brown, Proc. IS&amp;T 6th Color Imaging Conf. (1998) 65-68.
 *
 * @param chromatic R = N M^-1, no unit: sets the chromaticity
 * @param luminanceFactor kY, no unit, greater than zero: what the luminance is multiplied by after that
 */
public record FourColourMatrix(Matrix3 chromatic, double luminanceFactor) {
    /** Changes nothing: the meter as it is. */
    public static final FourColourMatrix NONE = new FourColourMatrix(new Matrix3(1, 0, 0, 0, 1, 0, 0, 0, 1), 1);

    public FourColourMatrix {
        double d = chromatic.determinant();
        if (d == 0 || !Double.isFinite(d)) {
            throw new IllegalArgumentException(
                    "a correction's matrix must have an inverse, but its determinant is " + d);
        }
        Require.positive("luminance factor", luminanceFactor);
    }

    /**
     * The correction that four pairs of readings give.
     *
     * @param pairs reference and field meter on the same display
     * @return R = N M^-1, where M holds the field meter's x, y, z of red, green and blue as columns, each times a factor
     *     so that they add up to the x, y, z of its white, and N likewise the reference's; and kY, so that white gets the
     *     reference's luminance
     */
    public static FourColourMatrix of(PairedReadings pairs) {
        Matrix3 chromatic =
                mixture(pairs.reference()).times(mixture(pairs.field()).inverse());
        XYZ white = pairs.field().white();
        double luminance = chromatic.times(white.x(), white.y(), white.z()).y();
        return new FourColourMatrix(chromatic, pairs.reference().white().y() / luminance);
    }

    /**
     * The same matrix, with the luminance that the field meter reads of white left as it is.
     *
     * @param fieldWhite the field meter's reading of white that the matrix was made from, cd/m2
     * @return a correction of chromaticity; use it where the two instruments did not read the display in one go
     */
    public FourColourMatrix keepingLuminanceOf(XYZ fieldWhite) {
        double luminance =
                chromatic.times(fieldWhite.x(), fieldWhite.y(), fieldWhite.z()).y();
        return new FourColourMatrix(
                chromatic, Require.positive("Y of the field meter's white in cd/m2", fieldWhite.y()) / luminance);
    }

    /**
     * Corrects a colour.
     *
     * @param raw as the field meter reads it, cd/m2
     * @return the corrected colour, with what had to be done to it or is odd about it
     */
    public Corrected correct(XYZ raw) {
        XYZ product = chromatic.times(raw.x(), raw.y(), raw.z()).times(luminanceFactor);
        Set<Corrected.Remark> remarks = EnumSet.noneOf(Corrected.Remark.class);
        if (product.y() < 0) {
            remarks.add(Corrected.Remark.LUMINANCE_RAISED_TO_ZERO);
        }
        if (product.x() < 0) {
            remarks.add(Corrected.Remark.X_BELOW_ZERO);
        }
        if (product.z() < 0) {
            remarks.add(Corrected.Remark.Z_BELOW_ZERO);
        }
        return new Corrected(raw, product, remarks);
    }

    /**
     * Corrects the readings of a run.
     *
     * @param raw as the field meter gave them
     * @return the same patches in the same order, with remarks by patch
     */
    public CorrectedRun correct(List<Reading> raw) {
        return CorrectedRun.of(this, raw);
    }

    /** x, y, z of red, green and blue, as columns. */
    static Matrix3 chromaticities(FourColours read) {
        return Matrix3.ofColumns(normalised(read.red()), normalised(read.green()), normalised(read.blue()));
    }

    /** How much of each column makes up the x, y, z of white: k = M^-1 w. */
    static XYZ shares(Matrix3 primaries, XYZ white) {
        XYZ w = normalised(white);
        return primaries.inverse().times(w.x(), w.y(), w.z());
    }

    private static Matrix3 mixture(FourColours read) {
        Matrix3 primaries = chromaticities(read);
        XYZ k = shares(primaries, read.white());
        return primaries.times(new Matrix3(k.x(), 0, 0, 0, k.y(), 0, 0, 0, k.z()));
    }

    private static XYZ normalised(XYZ c) {
        return c.times(1 / (c.x() + c.y() + c.z()));
    }
}
