package panelbook.colorimetry.signalpath;

import java.util.List;

/**
 * What a grey ramp says of the signal path.
 *
 * @param ranking every explanation, the likeliest first
 * @param notToldApart explanations that this ramp, with this noise, cannot tell from the likeliest: the closest curve of
 *     each lies within {@link SignalPath#LEAST_SEPARATION} of it
 * @param explained whether the likeliest curve fits: false says that something else is going on, and the ranking only
 *     names what comes closest
 * @param levels what was measured against what the likeliest says, from dark to bright as given
 * @param noise as assumed, widened where even the best curve scatters more
 */
public record Diagnosis(
        List<Ranked> ranking, List<Explanation> notToldApart, boolean explained, List<Level> levels, RampNoise noise) {

    /**
     * One level of the ramp.
     *
     * @param signal 0 for black, 1 for white
     * @param measured cd/m2
     * @param likeliest what the likeliest explanation gives, cd/m2
     * @param intended what the path as intended gives at best, cd/m2
     */
    public record Level(double signal, double measured, double likeliest, double intended) {}

    public Diagnosis {
        ranking = List.copyOf(ranking);
        notToldApart = List.copyOf(notToldApart);
        levels = List.copyOf(levels);
    }

    /**
     * The likeliest.
     *
     * @return first of the ranking
     */
    public Ranked likeliest() {
        return ranking.get(0);
    }

    /**
     * The next likely.
     *
     * @return second of the ranking
     */
    public Ranked runnerUp() {
        return ranking.get(1);
    }

    /**
     * How far the runner-up is behind.
     *
     * @return difference of scores, not negative: twice the logarithm of the odds between the two
     */
    public double margin() {
        return runnerUp().score() - likeliest().score();
    }

    /**
     * Whether trims should wait until a person has looked.
     *
     * @return true when a fault is likeliest, or nothing explains the ramp
     */
    public boolean suspect() {
        return likeliest().explanation().isFault() || !explained;
    }
}
