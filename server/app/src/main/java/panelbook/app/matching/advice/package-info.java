/**
 * The table of advice: what to tell at which moment of a match, and which control to try first for what was seen. A house
 * edits it; when a moment has come is for others to say.
 */
@NullMarked
package panelbook.app.matching.advice;

import org.jspecify.annotations.NullMarked;
