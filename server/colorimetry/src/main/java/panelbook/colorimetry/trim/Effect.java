package panelbook.colorimetry.trim;

import panelbook.colorimetry.uncertainty.Estimate;

/**
 * What one click does.
 *
 * @param perClick change of the figure by one click up, with its standard deviation
 * @param lower end of the interval that holds the truth with {@link ClickEffects#COVERAGE}
 * @param upper end of that interval
 * @param ownTrials trials on this display that it rests on
 * @param otherDisplays displays of the model that it rests on besides
 */
public record Effect(Estimate perClick, double lower, double upper, int ownTrials, int otherDisplays) {}
