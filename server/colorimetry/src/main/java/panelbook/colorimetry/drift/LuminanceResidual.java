package panelbook.colorimetry.drift;

import panelbook.colorimetry.uncertainty.Estimate;

/**
 * Luminance of follower and hero, as natural logarithms of ratios.
 *
 * @param agreed ln(follower / hero) at sign-off
 * @param now ln(follower / hero) now
 * @param residual now less agreed
 * @param followerMovement ln(now / then) of the follower
 * @param heroMovement ln(now / then) of the hero
 * @param attribution who moved
 */
public record LuminanceResidual(
        Estimate agreed,
        Estimate now,
        Estimate residual,
        Estimate followerMovement,
        Estimate heroMovement,
        Attribution attribution) {

    static LuminanceResidual of(Quartet q) {
        Estimate residual = LogRatio.of(q.all(), 1, -1, -1, 1);
        Estimate follower = LogRatio.of(q.follower(), 1, -1);
        Estimate hero = LogRatio.of(q.hero(), 1, -1);
        return new LuminanceResidual(
                LogRatio.of(q.then(), 1, -1),
                LogRatio.of(q.now(), 1, -1),
                residual,
                follower,
                hero,
                Attribution.ofScalars(residual, follower, hero));
    }

    /**
     * The residual as percent of the luminance agreed on.
     *
     * @return 100 (exp(residual) - 1), with its uncertainty to first order
     */
    public Estimate residualPercent() {
        return LogRatio.percent(residual);
    }
}
