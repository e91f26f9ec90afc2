/**
 * Draws what other parts worked out, as SVG that reads in greyscale, is dark enough for a grading room and says in words what
 * each mark is. It works nothing out itself. The chart library lays out and paints onto a document ({@code Chart}), labels stand
 * beside what they name ({@code Labels}), and {@code Writing} makes small text of the document that is the same each time.
 */
@NullMarked
package panelbook.app.drawing;

import org.jspecify.annotations.NullMarked;
