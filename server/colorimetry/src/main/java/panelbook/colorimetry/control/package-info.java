/**
 * Control charts: whether a series of figures stepped, rather than aged, and between which runs. It ends at the step; who
 * caused it, and what else stepped then, is for others to ask.
 */
@NullMarked
package panelbook.colorimetry.control;

import org.jspecify.annotations.NullMarked;
