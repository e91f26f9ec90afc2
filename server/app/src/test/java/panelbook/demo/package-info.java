/**
 * An invented facility and its runs, made from physics with fixed seeds: what the try script uploads and what tests of the
 * whole service tell their stories with. Nothing in it is a measurement, a person, a maker or a model.
 */
@NullMarked
package panelbook.demo;

import org.jspecify.annotations.NullMarked;
