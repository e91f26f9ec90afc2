/**
 * Draws what other parts worked out, as SVG that reads in greyscale, is dark enough for a grading room and says in words what
 * each mark is. It works nothing out itself.
 */
@NullMarked
package panelbook.app.drawing;

import org.jspecify.annotations.NullMarked;
