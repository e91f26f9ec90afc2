/**
 * How sure a figure is, and what may be decided from it: propagation from instrument to figure, the normal distribution,
 * and conformance with a limit. It ends at the decision; what is done about it is not known here.
 *
 * <p>All uncertainties are standard uncertainties (k = 1). A certificate's expanded uncertainty is divided by its
 * coverage factor first.
 */
@NullMarked
package panelbook.colorimetry.uncertainty;

import org.jspecify.annotations.NullMarked;
