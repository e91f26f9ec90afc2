/**
 * Corrections of field meters: made from two runs of the same patches, shown before they are made, withdrawn, never changed.
 * Which correction a run is read with is the instruments' own; what follows for what was judged is the assessment's.
 */
@NullMarked
package panelbook.app.corrections;

import org.jspecify.annotations.NullMarked;
