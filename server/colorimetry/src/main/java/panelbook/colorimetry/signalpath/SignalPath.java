package panelbook.colorimetry.signalpath;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * The likeliest explanation of a grey ramp.
 *
 * <p>Each explanation is a family of curves: what happens to the signal, and the display behind it, whose own figures are
 * free within bounds. They are fitted by least squares in log luminance, and compared by Schwarz's criterion (Ann.
 * Statist. 6 (1978) 461): chi2 + k ln n, with chi2 in units of the noise. To each fault {@link #PRIOR} is added. The noise
 * is the one given, widened where even the best of all curves leaves more than chance explains.
 *
 * <p>What is free. Relative EOTFs: white from 1/50 to 10 times the aim, black up to 3 times the aim or 1/2000 of white
 * (where black lifts the curve) or 1/200 and 0.5 cd/m2 (where it adds), a soft or hard top. PQ: a factor of 0.6 to 1.25
 * (an aged panel), black and top likewise. Hence, by definition:
 *
 * <ul>
 *   <li>a display of a relative EOTF that follows its curve to a lower white is as intended: its peak is for the
 *       verification to judge; peak limited is one that goes flat below 9/10 of its own white;
 *   <li>a display of PQ whose top lies at 85 % of the aim or above is as intended, roll-off included; below, it is peak
 *       limited; when the ramp ends before the top, the two are alike, and it is as intended;
 *   <li>where two explanations give the same curves (BT.1886 without black and a power of 2.4; a lift by black and a
 *       squeezed range), as intended goes first, and {@link Diagnosis#notToldApart} names the other.
 * </ul>
 *
 * <p>These bounds are house rules, no published source.
 */
public final class SignalPath {
    /**
     * What a fault must overcome: prior odds of exp(-7), about 1 to 1100, against each, so that noise alone makes a path
     * as intended a fault in fewer than 1 of 1,000 ramps. House rule.
     */
    public static final double PRIOR = 14;

    /** Fewer levels of grey tell nothing: three figures of each curve are free. */
    public static final int LEAST_LEVELS = 5;

    /**
     * The least chi2 between two curves that are told apart: at 50, noise of standard deviation 1 bridges half of it and
     * the prior in fewer than 1 of 200 ramps. House rule.
     */
    public static final double LEAST_SEPARATION = 50;

    /** A curve that leaves more than this times the noise is no explanation. House rule. */
    private static final double MOST_SCATTER = 4;

    private final Models models;
    private final Target target;

    private SignalPath(Target target) {
        this.target = target;
        this.models = new Models(target);
    }

    /**
     * Diagnoses a ramp with the default noise.
     *
     * @param target what the greys were meant for
     * @param greys readings of at least five greys from black to white, in the target's code values; levels below black
     *     or above white are left out
     * @return the diagnosis
     * @throws IllegalArgumentException when there are fewer levels, a patch is no grey, or there is no light
     */
    public static Diagnosis diagnose(Target target, List<Reading> greys) {
        return diagnose(target, greys, RampNoise.DEFAULT);
    }

    /**
     * Diagnoses a ramp.
     *
     * @param target what the greys were meant for
     * @param greys readings of at least five greys from black to white, in the target's code values; levels below black
     *     or above white are left out
     * @param noise how far readings scatter
     * @return the diagnosis
     * @throws IllegalArgumentException when there are fewer levels, a patch is no grey, or there is no light
     */
    public static Diagnosis diagnose(Target target, List<Reading> greys, RampNoise noise) {
        return new SignalPath(target).diagnose(Ramp.of(target, greys, noise), noise);
    }

    /**
     * The cheap first look: whether the path is as intended so plainly that no fault can be likelier. A fault fits at best
     * with chi2 of 0, and {@link #PRIOR} is added to it; so where the intended curve leaves no more than that, the other
     * curves, which take some ten times as long, decide nothing.
     *
     * @param target as for {@link #diagnose(Target, List, RampNoise)}
     * @param greys as for {@link #diagnose(Target, List, RampNoise)}
     * @param noise how far readings scatter
     * @return what the full diagnosis ranks first; empty when the faults must be weighed as well
     * @throws IllegalArgumentException as {@link #diagnose(Target, List, RampNoise)}
     */
    public static Optional<Ranked> plainlyAsIntended(Target target, List<Reading> greys, RampNoise noise) {
        Ramp ramp = Ramp.of(target, greys, noise);
        Explanation intended = Explanation.of(Explanation.Kind.AS_INTENDED);
        Candidate candidate = new Candidate(intended, new SignalPath(target).bestFit(intended, ramp, noise));
        return candidate.fit().chiSquared() < PRIOR ? Optional.of(ranked(candidate, ramp, noise, 1)) : Optional.empty();
    }

    private record Candidate(Explanation explanation, Fit fit) {}

    private Diagnosis diagnose(Ramp ramp, RampNoise noise) {
        List<Candidate> candidates = new ArrayList<>();
        for (Explanation e : Explanation.allFor(target)) {
            candidates.add(new Candidate(e, bestFit(e, ramp, noise)));
        }
        double least =
                candidates.stream().mapToDouble(c -> c.fit().chiSquared()).min().orElseThrow();
        double widening = Math.max(1, least / mostByChance(ramp.size() - DisplayModel.FIGURES));
        List<Ranked> ranking = new ArrayList<>();
        for (Candidate c : candidates) {
            ranking.add(ranked(c, ramp, noise, widening));
        }
        ranking.sort(Comparator.comparingDouble(Ranked::score));
        Candidate likeliest = find(candidates, ranking.get(0).explanation());
        boolean explained = ranking.get(0).rmsLogResidual() <= MOST_SCATTER * noise.relative();
        return new Diagnosis(
                ranking,
                alike(likeliest, ranking, ramp, noise, widening),
                explained,
                levels(ramp, likeliest, candidates.get(0)),
                new RampNoise(noise.relative() * Math.sqrt(widening), noise.floor() * Math.sqrt(widening)));
    }

    /** The 99 % quantile of chi2, so that a short ramp's luck widens nothing. Source: Wilson and Hilferty, PNAS 17 (1931) 684. */
    private static double mostByChance(int degreesOfFreedom) {
        double part = 2.0 / (9 * degreesOfFreedom);
        return degreesOfFreedom * Math.pow(1 - part + Normal.quantile(0.99) * Math.sqrt(part), 3);
    }

    private static Candidate find(List<Candidate> candidates, Explanation explanation) {
        return candidates.stream()
                .filter(c -> c.explanation().equals(explanation))
                .findFirst()
                .orElseThrow();
    }

    private Fit bestFit(Explanation explanation, Ramp ramp, RampNoise noise) {
        return models.of(explanation).stream()
                .map(m -> Fit.of(m, ramp, noise))
                .min(Comparator.comparingDouble(Fit::chiSquared))
                .orElseThrow();
    }

    private static Ranked ranked(Candidate c, Ramp ramp, RampNoise noise, double widening) {
        double prior = c.explanation().isFault() ? PRIOR : 0;
        double bic = c.fit().chiSquared() / widening + DisplayModel.FIGURES * Math.log(ramp.size());
        double[] ends = c.fit().luminances(new double[] {0, 1});
        double rms = noise.relative() * Math.sqrt(c.fit().chiSquared() / ramp.size());
        return new Ranked(c.explanation(), bic + prior, rms, ends[1], ends[0]);
    }

    /** Those whose closest curve to the likeliest's lies too near to it. Far-off scores need no second fit. */
    private List<Explanation> alike(
            Candidate likeliest, List<Ranked> ranking, Ramp ramp, RampNoise noise, double widening) {
        Ramp noiseless = new Ramp(ramp.signals(), likeliest.fit().luminances(ramp.signals()));
        double best = ranking.get(0).score();
        List<Explanation> alike = new ArrayList<>();
        for (Ranked other : ranking.subList(1, ranking.size())) {
            boolean near = other.score() - best < 4 * LEAST_SEPARATION;
            if (near && bestFit(other.explanation(), noiseless, noise).chiSquared() / widening < LEAST_SEPARATION) {
                alike.add(other.explanation());
            }
        }
        return alike;
    }

    private static List<Diagnosis.Level> levels(Ramp ramp, Candidate likeliest, Candidate intended) {
        double[] shown = likeliest.fit().luminances(ramp.signals());
        double[] meant = intended.fit().luminances(ramp.signals());
        List<Diagnosis.Level> levels = new ArrayList<>();
        for (int i = 0; i < ramp.size(); i++) {
            levels.add(new Diagnosis.Level(ramp.signals()[i], ramp.luminances()[i], shown[i], meant[i]));
        }
        return levels;
    }
}
