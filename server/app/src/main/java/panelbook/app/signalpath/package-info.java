/**
 * What the grey ramps of runs say of the signal path, worked out anew from the readings each time. It warns nobody and keeps
 * nothing: verdicts, matches and sheets show what it says.
 */
@NullMarked
package panelbook.app.signalpath;

import org.jspecify.annotations.NullMarked;
