/**
 * Readings made from physics, for tests and for the demo: spectra of primaries, a tone curve with the faults of real
 * displays, ageing, and a noisy instrument. Everything is set by arguments and a seed; nothing here is a measurement.
 */
@NullMarked
package panelbook.colorimetry.simulation;

import org.jspecify.annotations.NullMarked;
