/**
 * Judges presets: the rules, their findings, the baselines that follow from them, and the causes they are reported as. The
 * mathematics is the library's; limits come from the tolerance set of the preset's target.
 */
@NullMarked
package panelbook.app.assessment;

import org.jspecify.annotations.NullMarked;
