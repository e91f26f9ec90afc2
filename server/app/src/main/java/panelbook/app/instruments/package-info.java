/**
 * The meters: their uncertainties and their calibration certificates. What was measured with them is kept elsewhere.
 */
@NullMarked
package panelbook.app.instruments;

import org.jspecify.annotations.NullMarked;
