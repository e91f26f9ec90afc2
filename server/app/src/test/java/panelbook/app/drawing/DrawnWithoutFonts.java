package panelbook.app.drawing;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.UUID;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.Paper;
import panelbook.wire.SeriesKind;

/** A program that draws, for a machine of its own. */
final class DrawnWithoutFonts {

    private DrawnWithoutFonts() {}

    /** Prints a drawing. */
    public static void main(String[] arguments) {
        new PrintStream(System.out, true, StandardCharsets.UTF_8).print(drawing());
    }

    /** One with each form of series. */
    static String drawing() {
        var points =
                List.of(DrawingPoint.mark(1, 10, "one"), DrawingPoint.reading(2, 20, 3.0, "two", new UUID(1, 2), null));
        return Drawings.svg(
                new Drawing(
                        DrawingName.PEAK_LUMINANCE,
                        new UUID(3, 4),
                        "North/Suite 1/Main/HDR",
                        "Peak luminance",
                        "Two readings.",
                        new DrawingAxis("panel hours", "h", AxisScale.LINEAR, 0),
                        new DrawingAxis("peak luminance", "cd/m²", AxisScale.LOGARITHMIC, 1),
                        false,
                        java.util.Arrays.stream(SeriesKind.values())
                                .map(kind -> new DrawingSeries("series " + kind, kind, points))
                                .toList()),
                Paper.DARK);
    }
}
