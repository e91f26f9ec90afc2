/**
 * The meters: their uncertainties and their calibration certificates, and what they are worth to those who read runs. What was
 * measured with them is kept elsewhere.
 */
@NullMarked
package panelbook.app.instruments;

import org.jspecify.annotations.NullMarked;
