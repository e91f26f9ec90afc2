package panelbook.app.sheet;

import java.math.BigDecimal;
import java.util.Map;
import java.util.Optional;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.RgbSpace;
import panelbook.wire.EotfKind;
import panelbook.wire.Primaries;
import panelbook.wire.Target;

/** A target in words. */
final class AimWords {

    private static final Map<String, RgbSpace> SPACES =
            Map.of("BT.709", RgbSpace.BT_709, "BT.2020", RgbSpace.BT_2020, "P3", RgbSpace.P3_D65);

    private AimWords() {}

    static String of(Target target) {
        return primaries(target.primaries()) + ", " + white(target.primaries()) + "; " + eotf(target) + ", "
                + target.signalRange() + " range, " + target.bitDepth() + " bit; peak "
                + plain(target.peakLuminance()) + " cd/m², black " + plain(target.blackLuminance()) + " cd/m²";
    }

    private static String primaries(Primaries p) {
        return named(p).map(name -> name + " primaries")
                .orElseGet(() -> "primaries xy " + pair(p.redX(), p.redY()) + ", " + pair(p.greenX(), p.greenY()) + ", "
                        + pair(p.blueX(), p.blueY()));
    }

    private static Optional<String> named(Primaries p) {
        var red = new Chromaticity(p.redX(), p.redY());
        var green = new Chromaticity(p.greenX(), p.greenY());
        var blue = new Chromaticity(p.blueX(), p.blueY());
        return SPACES.entrySet().stream()
                .filter(named -> named.getValue().red().equals(red)
                        && named.getValue().green().equals(green)
                        && named.getValue().blue().equals(blue))
                .map(Map.Entry::getKey)
                .findFirst();
    }

    private static String white(Primaries p) {
        return new Chromaticity(p.whiteX(), p.whiteY()).equals(Chromaticity.D65)
                ? "white D65"
                : "white xy " + pair(p.whiteX(), p.whiteY());
    }

    private static String eotf(Target target) {
        return switch (target.eotf()) {
            case PQ -> "PQ";
            case HLG -> "HLG";
            case BT1886 -> "BT.1886";
            case POWER -> EotfKind.POWER + " " + (target.gamma() == null ? "" : plain(target.gamma()));
        };
    }

    private static String pair(double x, double y) {
        return plain(x) + " " + plain(y);
    }

    private static String plain(double value) {
        return new BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
    }
}
