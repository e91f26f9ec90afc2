/**
 * Colour as measured: tristimulus values, chromaticities, colour differences, correlated colour temperature and RGB
 * spaces. It ends where a signal begins: code values and display light are in {@code signal}.
 *
 * <p>All tristimulus values are absolute, in cd/m2, for the CIE 1931 standard observer. There is no other scale and no
 * switch. No function here reads a file, a clock or a random source.
 */
@NullMarked
package panelbook.colorimetry;

import org.jspecify.annotations.NullMarked;
