package panelbook.app.pictures;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.SeriesKind;

/** A drawing in the making. */
final class Sketch {

    private final Story story;
    private final DrawingName name;
    private final String title;
    private final DrawingAxis x;
    private final DrawingAxis y;
    private final List<DrawingSeries> series = new ArrayList<>();
    private boolean equalScale;

    Sketch(Story story, DrawingName name, String title, DrawingAxis x, DrawingAxis y) {
        this.story = story;
        this.name = name;
        this.title = title;
        this.x = x;
        this.y = y;
    }

    Sketch equalScale() {
        equalScale = true;
        return this;
    }

    /** Adds a series, unless it has no points. */
    Sketch add(String of, SeriesKind kind, List<DrawingPoint> points) {
        if (!points.isEmpty()) {
            series.add(new DrawingSeries(of, kind, List.copyOf(points)));
        }
        return this;
    }

    Sketch add(String of, SeriesKind kind, DrawingPoint... points) {
        return add(of, kind, List.of(points));
    }

    /** Adds a level, from one end of all points so far to the other. */
    Sketch level(String of, SeriesKind kind, double at) {
        var across = series.stream()
                .flatMap(one -> one.points().stream())
                .mapToDouble(DrawingPoint::x)
                .summaryStatistics();
        return add(of, kind, DrawingPoint.of(across.getMin(), at), DrawingPoint.of(across.getMax(), at));
    }

    /** Adds a limit, if there is one. */
    Sketch limit(OptionalDouble at) {
        if (at.isPresent()) {
            level("limit " + Say.fixed(at.getAsDouble(), y.decimals()), SeriesKind.LIMIT, at.getAsDouble());
        }
        return this;
    }

    boolean isEmpty() {
        return series.isEmpty();
    }

    Drawing done(String summary) {
        return new Drawing(
                name,
                story.preset().presetId(),
                story.preset().path(),
                title,
                summary,
                x,
                y,
                equalScale,
                List.copyOf(series));
    }
}
