package panelbook.wire;

/**
 * What one click up of a control does on one display.
 *
 * @param grey signal of the grey looked at, % of white; 0 for black
 * @param perClick change of the figure
 * @param standardUncertainty of perClick
 * @param lower end of the interval that holds the truth with 95 %
 * @param upper end of that interval
 * @param ownTrials trials on this display that it rests on
 * @param otherDisplays displays of its model that it rests on besides
 */
public record ClickEffect(
        String control,
        String level,
        int grey,
        EffectFigure figure,
        double perClick,
        double standardUncertainty,
        double lower,
        double upper,
        int ownTrials,
        int otherDisplays) {}
