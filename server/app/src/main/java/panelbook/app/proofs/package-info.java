/**
 * Proofs: documents handed out that show the state of a room on a day, as the book stood then, and the question whether a document is
 * one of them. It gathers what others say, prints it, keeps what was handed out, and judges nothing.
 */
@NullMarked
package panelbook.app.proofs;

import org.jspecify.annotations.NullMarked;
