/**
 * What a series of readings says about the hours to come: where the series may be used as one, the line or curve through
 * it, and when that crosses a tolerance. It ends at panel hours and dates with how sure they are; whether somebody should
 * come is for others.
 *
 * <p>Input: panel hours, instants and figures of one preset. Output: a crossing as expected and as earliest at 90 %, or the
 * reason why there is none. Nothing is said beyond six times the hours observed.
 */
@NullMarked
package panelbook.colorimetry.forecast;

import org.jspecify.annotations.NullMarked;
