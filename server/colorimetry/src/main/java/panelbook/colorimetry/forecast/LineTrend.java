package panelbook.colorimetry.forecast;

import java.util.Arrays;

/**
 * Theil and Sen's line with a band from ranks: bounds of the slope by Kendall's S, of the level at the mean of the hours by
 * Wilcoxon's signed ranks, put together as independent of each other. Source: Hodges and Lehmann, Ann. Math. Statist. 34
 * (1963) 598, for the level; Zou and Donner, Statist. Med. 27 (2008) 1693, for putting bounds together.
 */
public final class LineTrend implements Trend {
    private final TheilSen line;
    private final int readings;
    private final double pivotHours;
    private final double level;
    private final double levelLow;
    private final double levelHigh;
    private final double slopeLow;
    private final double slopeHigh;

    private LineTrend(TheilSen line, double pivotHours, double[] residuals, double[] cumulative) {
        this.line = line;
        this.readings = residuals.length;
        this.pivotHours = pivotHours;
        this.slopeLow = line.lowerBound(CONFIDENCE);
        this.slopeHigh = line.upperBound(CONFIDENCE);
        double[] averages = Ranks.walshAverages(residuals);
        this.level = TheilSen.median(averages);
        // what the slope took up of the scatter is given back
        double widening = Math.sqrt(readings / (readings - 2.0));
        this.levelLow = widening * (level - Ranks.quantile(averages, cumulative, 1 - CONFIDENCE));
        double[] turned = Arrays.stream(averages).map(a -> -a).sorted().toArray();
        this.levelHigh = widening * (-Ranks.quantile(turned, cumulative, 1 - CONFIDENCE) - level);
    }

    static LineTrend of(double[] hours, double[] figures) {
        TheilSen line = TheilSen.fit(hours, figures);
        double pivot = Arrays.stream(hours).average().orElseThrow();
        double[] residuals = new double[hours.length];
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] = figures[i] - line.slope() * (hours[i] - pivot);
        }
        return new LineTrend(line, pivot, residuals, Ranks.cumulativeSignedRanks(hours.length));
    }

    /**
     * The slope with its interval.
     *
     * @return Theil and Sen's line; the level of the trend is Hodges and Lehmann's instead, which scatters less than its
     *     intercept
     */
    public TheilSen line() {
        return line;
    }

    @Override
    public int readings() {
        return readings;
    }

    @Override
    public double at(double panelHours) {
        return level + line.slope() * (panelHours - pivotHours);
    }

    @Override
    public double low(double panelHours) {
        return at(panelHours) - Math.hypot(levelLow, lever(panelHours, slopeLow, slopeHigh));
    }

    @Override
    public double high(double panelHours) {
        return at(panelHours) + Math.hypot(levelHigh, lever(panelHours, slopeHigh, slopeLow));
    }

    /** Before the pivot the other bound of the slope counts. */
    private double lever(double panelHours, double after, double before) {
        double bound = panelHours >= pivotHours ? after : before;
        return (bound - line.slope()) * (panelHours - pivotHours);
    }

    double[] residuals(double[] hours, double[] figures) {
        double[] residuals = new double[hours.length];
        for (int i = 0; i < residuals.length; i++) {
            residuals[i] = figures[i] - at(hours[i]);
        }
        return residuals;
    }

    /** Robust standard deviation about the line. */
    double noise(double[] hours, double[] figures) {
        return CurveFit.scale(residuals(hours, figures), 2);
    }

    boolean falls() {
        return slopeHigh < 0;
    }

    boolean rises() {
        return slopeLow > 0;
    }
}
