/**
 * A display that was entered twice becomes one: its runs, matches and all else that the book holds on it pass to the display
 * that is kept. What a single run or match needs to be put right lies with runs and matches; nothing is judged here.
 */
@NullMarked
package panelbook.app.mending;

import org.jspecify.annotations.NullMarked;
