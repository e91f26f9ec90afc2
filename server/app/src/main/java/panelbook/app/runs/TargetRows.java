package panelbook.app.runs;

import java.sql.ResultSet;
import java.sql.SQLException;
import panelbook.app.rest.Words;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.wire.EotfKind;

/** Rows of target_revision as the library's targets. */
final class TargetRows {

    private TargetRows() {}

    static Target target(ResultSet row) throws SQLException {
        var aims = new LuminanceRange(row.getDouble("black_luminance"), row.getDouble("peak_luminance"));
        var range = Words.of(panelbook.wire.SignalRange.class, row.getString("signal_range"));
        return new Target(
                new RgbSpace(
                        chromaticity(row, "red"),
                        chromaticity(row, "green"),
                        chromaticity(row, "blue"),
                        chromaticity(row, "white")),
                eotf(row, aims),
                new CodeValues(
                        range == panelbook.wire.SignalRange.FULL ? SignalRange.FULL : SignalRange.NARROW,
                        row.getInt("bit_depth")),
                aims);
    }

    private static Eotf eotf(ResultSet row, LuminanceRange aims) throws SQLException {
        return switch (Words.of(EotfKind.class, row.getString("eotf"))) {
            case PQ -> new Eotf.Pq();
            case HLG -> Eotf.Hlg.forPeak(aims.white());
            case BT1886 -> new Eotf.Bt1886();
            case POWER -> new Eotf.Power(row.getDouble("gamma"));
        };
    }

    private static Chromaticity chromaticity(ResultSet row, String of) throws SQLException {
        return new Chromaticity(row.getDouble(of + "_x"), row.getDouble(of + "_y"));
    }
}
