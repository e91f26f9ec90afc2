package panelbook.colorimetry.forecast;

/** What was found in a series, with its band, for whoever draws it. Values are in the unit of the series. */
public sealed interface Trend permits LineTrend, AgeingTrend {
    /** One-sided chance with which each edge of the band holds. */
    double CONFIDENCE = 0.9;

    /** How many readings it rests on. */
    int readings();

    /**
     * The figure as expected.
     *
     * @param panelHours t, h
     * @return in the unit of the series
     */
    double at(double panelHours);

    /**
     * The lower edge of the band: the true figure lies above it with 90 %.
     *
     * @param panelHours t, h
     * @return in the unit of the series
     */
    double low(double panelHours);

    /**
     * The upper edge of the band: the true figure lies below it with 90 %.
     *
     * @param panelHours t, h
     * @return in the unit of the series
     */
    double high(double panelHours);
}
