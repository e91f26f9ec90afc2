package panelbook.app.drawing;

import java.util.List;
import java.util.stream.Collectors;
import panelbook.wire.Drawing;
import panelbook.wire.Paper;

/** Drawings as SVG. The same drawing gives the same bytes, whatever the locale and the fonts of the machine. */
public final class Drawings {

    private Drawings() {}

    /** One drawing. */
    public static String svg(Drawing drawing, Paper paper) {
        return svg(
                drawing.name() + "-" + drawing.presetId(),
                drawing.title() + ", " + drawing.preset(),
                drawing.summary(),
                List.of(drawing),
                paper);
    }

    /**
     * Several drawings, one below the other.
     *
     * @param id that tells it from all other drawings of a page
     * @param title of all of them together
     */
    public static String svg(String id, String title, List<Drawing> drawings, Paper paper) {
        return svg(
                id,
                title,
                drawings.stream()
                        .map(drawing -> drawing.title() + ". " + drawing.summary())
                        .collect(Collectors.joining(" ")),
                drawings,
                paper);
    }

    private static String svg(String id, String title, String description, List<Drawing> drawings, Paper paper) {
        var canvas = new Canvas(paper, drawings.stream().mapToInt(Chart::height).sum());
        var top = 0;
        for (var drawing : drawings) {
            Chart.draw(canvas, drawing, top);
            top += Chart.height(drawing);
        }
        return canvas.written(id, title, description);
    }
}
