package panelbook.app.instruments;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import panelbook.colorimetry.Matrix3;
import panelbook.colorimetry.correction.FourColourMatrix;

/** The matrix of a correction as a row of the book holds it: nine numbers, row by row, and the luminance factor. */
public final class CorrectionMatrix {

    private CorrectionMatrix() {}

    /** Of a row of the table of corrections. */
    static FourColourMatrix of(ResultSet row) throws SQLException {
        var m = (Double[]) row.getArray("matrix").getArray();
        return new FourColourMatrix(
                new Matrix3(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]), row.getDouble("luminance_factor"));
    }

    /** Nine numbers, row by row. */
    public static List<Double> elements(FourColourMatrix correction) {
        var m = correction.chromatic();
        return List.of(m.m00(), m.m01(), m.m02(), m.m10(), m.m11(), m.m12(), m.m20(), m.m21(), m.m22());
    }
}
