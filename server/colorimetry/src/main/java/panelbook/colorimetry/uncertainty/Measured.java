package panelbook.colorimetry.uncertainty;

import panelbook.colorimetry.XYZ;

/**
 * A measured colour and what it is worth.
 *
 * @param xyz X, Y, Z, cd/m2
 * @param uncertainty the instrument's figures
 */
public record Measured(XYZ xyz, InstrumentUncertainty uncertainty) {}
