package panelbook.colorimetry;

/**
 * Constant-intensity colour of ITU-R BT.2100-2, Table 7, in its PQ form.
 *
 * <p>Conditions: display light up to about 10000 cd/m2. LMS values below zero, which lie outside all real colours, are
 * taken as zero.
 *
 * @param i I, intensity, no unit
 * @param ct Ct (not yet halved to the T of BT.2124), no unit
 * @param cp Cp, no unit
 */
public record ICtCp(double i, double ct, double cp) {
    private static final Matrix3 LMS_FROM_BT2020 = new Matrix3(
            1688.0 / 4096,
            2146.0 / 4096,
            262.0 / 4096,
            683.0 / 4096,
            2951.0 / 4096,
            462.0 / 4096,
            99.0 / 4096,
            309.0 / 4096,
            3688.0 / 4096);
    private static final Matrix3 ICTCP_FROM_LMS = new Matrix3(
            2048.0 / 4096,
            2048.0 / 4096,
            0,
            6610.0 / 4096,
            -13613.0 / 4096,
            7003.0 / 4096,
            17933.0 / 4096,
            -17390.0 / 4096,
            -543.0 / 4096);
    private static final Matrix3 LMS_FROM_XYZ =
            LMS_FROM_BT2020.times(RgbSpace.BT_2020.toXyz().inverse());
    private static final Matrix3 XYZ_FROM_LMS = LMS_FROM_XYZ.inverse();
    private static final Matrix3 LMS_FROM_ICTCP = ICTCP_FROM_LMS.inverse();

    public ICtCp {
        Require.finite("I", i);
        Require.finite("Ct", ct);
        Require.finite("Cp", cp);
    }

    /**
     * ICtCp of display light.
     *
     * @param colour X, Y, Z, cd/m2
     * @return I, Ct, Cp by the exact BT.2020 matrix of SMPTE RP 177, then the LMS matrix and PQ of BT.2100-2
     */
    public static ICtCp of(XYZ colour) {
        Matrix3 m = LMS_FROM_XYZ;
        double x = colour.x();
        double y = colour.y();
        double z = colour.z();
        double l = St2084.unclippedSignal(m.m00() * x + m.m01() * y + m.m02() * z);
        double c = St2084.unclippedSignal(m.m10() * x + m.m11() * y + m.m12() * z);
        double s = St2084.unclippedSignal(m.m20() * x + m.m21() * y + m.m22() * z);
        return new ICtCp(
                0.5 * l + 0.5 * c, (6610 * l - 13613 * c + 7003 * s) / 4096, (17933 * l - 17390 * c - 543 * s) / 4096);
    }

    /**
     * The display light back.
     *
     * @return X, Y, Z, cd/m2
     */
    public XYZ toXYZ() {
        XYZ lms = LMS_FROM_ICTCP.times(i, ct, cp);
        return XYZ_FROM_LMS.times(
                St2084.unclippedLuminance(lms.x()),
                St2084.unclippedLuminance(lms.y()),
                St2084.unclippedLuminance(lms.z()));
    }
}
