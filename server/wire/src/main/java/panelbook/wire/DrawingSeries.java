package panelbook.wire;

import java.util.List;

/**
 * Points of a drawing that belong together.
 *
 * @param name what they are, as it stands beside them
 */
public record DrawingSeries(String name, SeriesKind kind, List<DrawingPoint> points) {}
