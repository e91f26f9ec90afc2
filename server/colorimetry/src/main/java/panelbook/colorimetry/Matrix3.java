package panelbook.colorimetry;

/**
 * A 3 by 3 matrix; its components are named row first.
 *
 * @param m00 row 0, column 0, and so on
 */
public record Matrix3(
        double m00, double m01, double m02, double m10, double m11, double m12, double m20, double m21, double m22) {

    /**
     * The matrix with the given columns.
     *
     * @param a first column
     * @param b second column
     * @param c third column
     * @return the matrix
     */
    public static Matrix3 ofColumns(XYZ a, XYZ b, XYZ c) {
        return new Matrix3(a.x(), b.x(), c.x(), a.y(), b.y(), c.y(), a.z(), b.z(), c.z());
    }

    /**
     * Matrix times column vector.
     *
     * @param a first element
     * @param b second element
     * @param c third element
     * @return the product
     */
    public XYZ times(double a, double b, double c) {
        return new XYZ(m00 * a + m01 * b + m02 * c, m10 * a + m11 * b + m12 * c, m20 * a + m21 * b + m22 * c);
    }

    /**
     * Matrix times matrix.
     *
     * @param o the right factor
     * @return the product
     */
    public Matrix3 times(Matrix3 o) {
        return ofColumns(times(o.m00, o.m10, o.m20), times(o.m01, o.m11, o.m21), times(o.m02, o.m12, o.m22));
    }

    /**
     * The determinant.
     *
     * @return zero when the columns lie in a plane
     */
    public double determinant() {
        return m00 * (m11 * m22 - m12 * m21) - m01 * (m10 * m22 - m12 * m20) + m02 * (m10 * m21 - m11 * m20);
    }

    /**
     * The inverse, by cofactors.
     *
     * @return the matrix that undoes this one
     * @throws ArithmeticException when the determinant is zero
     */
    public Matrix3 inverse() {
        double d = determinant();
        if (d == 0 || !Double.isFinite(d)) {
            throw new ArithmeticException("the matrix has no inverse: its determinant is " + d);
        }
        return new Matrix3(
                (m11 * m22 - m12 * m21) / d,
                (m02 * m21 - m01 * m22) / d,
                (m01 * m12 - m02 * m11) / d,
                (m12 * m20 - m10 * m22) / d,
                (m00 * m22 - m02 * m20) / d,
                (m02 * m10 - m00 * m12) / d,
                (m10 * m21 - m11 * m20) / d,
                (m01 * m20 - m00 * m21) / d,
                (m00 * m11 - m01 * m10) / d);
    }
}
