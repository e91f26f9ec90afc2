/**
 * How a display has moved: against its own baseline, and against the hero that it was matched to. It ends at figures
 * with uncertainties and at who moved; limits and alerts are for others.
 *
 * <p>Runs are given as measured, already corrected; patches of different runs are matched by signal level. A figure that
 * the runs cannot give is absent.
 */
@NullMarked
package panelbook.colorimetry.drift;

import org.jspecify.annotations.NullMarked;
