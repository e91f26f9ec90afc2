/**
 * The story of a match as pure values: where the controls stand after each step, which steps were taken back, what the
 * guards say of the readings. It reads and writes nothing.
 */
@NullMarked
package panelbook.app.matching.story;

import org.jspecify.annotations.NullMarked;
