package panelbook.colorimetry.correction;

import java.util.Set;
import panelbook.colorimetry.XYZ;

/**
 * A corrected colour.
 *
 * @param raw as the field meter reads it, cd/m2
 * @param product as the matrix gives it, cd/m2; any of the three may be below zero near black
 * @param remarks what is odd about it; empty for most
 */
public record Corrected(XYZ raw, XYZ product, Set<Remark> remarks) {

    /** What a matrix does to a colour that lies outside the mixtures it was made for, or in the meter's noise. */
    public enum Remark {
        /** Y came out below zero and was set to zero, since no reading holds less than no light. */
        LUMINANCE_RAISED_TO_ZERO,
        /** X came out below zero and was left so. */
        X_BELOW_ZERO,
        /** Z came out below zero and was left so. */
        Z_BELOW_ZERO
    }

    public Corrected {
        remarks = Set.copyOf(remarks);
    }

    /**
     * The colour to go on with.
     *
     * @return the product, its Y not below zero, cd/m2
     */
    public XYZ xyz() {
        return product.y() < 0 ? new XYZ(product.x(), 0, product.z()) : product;
    }
}
