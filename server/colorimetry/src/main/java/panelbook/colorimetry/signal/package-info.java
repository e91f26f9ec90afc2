/**
 * From code values to the light that a display should show: ranges, EOTFs, targets, patches and readings. It ends at the
 * expected colour; how far a display is from it is for {@code verification} and {@code drift}.
 */
@NullMarked
package panelbook.colorimetry.signal;

import org.jspecify.annotations.NullMarked;
