package panelbook.app.drawing;

import java.awt.geom.Rectangle2D;
import org.jspecify.annotations.Nullable;

/**
 * A place in a drawing that says what is there when pointed at.
 *
 * @param place that it covers, as an ellipse
 * @param link where to go from it; null for nowhere
 */
record Mark(Rectangle2D place, String words, @Nullable String link) {}
