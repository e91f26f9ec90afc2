/**
 * What lies between the code values that were sent and the light that was measured: from a grey ramp alone, the likeliest
 * explanation of its shape. It ends at explanations with their evidence; nobody is warned here and nothing is switched.
 *
 * <p>Input: a target and readings of at least five greys. Output: every explanation ranked, how far the next is behind,
 * and those that this ramp cannot tell from the likeliest.
 */
@NullMarked
package panelbook.colorimetry.signalpath;

import org.jspecify.annotations.NullMarked;
