/**
 * Making the readings of a field meter those of a reference instrument on one kind of display: the four-colour matrix
 * method, from pairs of readings to corrected colours and to what changes when a correction is replaced. It ends at
 * colours; which correction is on file for whom, and since when, is not known here.
 *
 * <p>Input: raw readings of both instruments on the same patches of one display. Output: a matrix that is right for
 * additive mixtures of those primaries, and for other panel technologies is not.
 */
@NullMarked
package panelbook.colorimetry.correction;

import org.jspecify.annotations.NullMarked;
