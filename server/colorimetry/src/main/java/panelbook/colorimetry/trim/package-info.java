/**
 * Trims in figures: what one click of a control does to a display, which clicks bring a follower where it should be, and
 * which trims must not stand. It ends at answers; who turns the controls, and who may override a refusal, is not known
 * here.
 *
 * <p>Input: steps with readings before and after, already corrected. Output: effects with intervals; integer clicks with
 * the rest that is expected and why it is not less; a refusal with the two readings that show it.
 */
@NullMarked
package panelbook.colorimetry.trim;

import org.jspecify.annotations.NullMarked;
