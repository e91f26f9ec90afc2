package panelbook.colorimetry.drift;

import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.uncertainty.Estimate;

/**
 * How far the colour of one patch has moved.
 *
 * @param patch in the code values of the run taken now
 * @param deltaEItp delta E ITP with its uncertainty
 */
public record PatchDrift(Patch patch, Estimate deltaEItp) {}
