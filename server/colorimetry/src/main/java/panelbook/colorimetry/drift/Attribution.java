package panelbook.colorimetry.drift;

import java.util.OptionalDouble;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * How much of a residual each side's own movement explains. The residual r is the follower's movement mF less the
 * hero's mH, so the shares mF.r / r2 and -mH.r / r2 sum to 1; one is negative when that side's movement made the residual
 * smaller.
 *
 * @param followerShare share of the follower, 1 for all; empty when the residual is exactly zero
 * @param heroShare share of the hero; empty when the residual is exactly zero
 * @param mover who moved. A side counts when its movement is greater than 1.645 times its own uncertainty (one-sided 95 %)
 *     and, where the residual itself exceeds its uncertainty by as much, when the magnitude of its share is at least a
 *     quarter. House rule, no published source
 */
public record Attribution(OptionalDouble followerShare, OptionalDouble heroShare, Mover mover) {
    private static final double COVERAGE = Normal.quantile(0.95);
    private static final double LEAST_SHARE = 0.25;

    static Attribution ofScalars(Estimate residual, Estimate follower, Estimate hero) {
        double r = residual.value();
        return of(residual, follower, hero, follower.value() * r, -hero.value() * r, r * r);
    }

    static Attribution ofVectors(UvShift residual, UvShift follower, UvShift hero) {
        return of(
                residual.distance(),
                follower.distance(),
                hero.distance(),
                follower.dot(residual),
                -hero.dot(residual),
                residual.dot(residual));
    }

    private static Attribution of(
            Estimate residual, Estimate follower, Estimate hero, double followerDot, double heroDot, double squared) {
        if (squared == 0) {
            return new Attribution(
                    OptionalDouble.empty(), OptionalDouble.empty(), mover(counts(follower), counts(hero)));
        }
        double followerShare = followerDot / squared;
        double heroShare = heroDot / squared;
        boolean shareless = !residual.exceeds(COVERAGE);
        Mover mover = mover(
                counts(follower) && (shareless || Math.abs(followerShare) >= LEAST_SHARE),
                counts(hero) && (shareless || Math.abs(heroShare) >= LEAST_SHARE));
        return new Attribution(OptionalDouble.of(followerShare), OptionalDouble.of(heroShare), mover);
    }

    private static boolean counts(Estimate movement) {
        return movement.exceeds(COVERAGE);
    }

    private static Mover mover(boolean follower, boolean hero) {
        if (follower && hero) {
            return Mover.BOTH;
        }
        return follower ? Mover.FOLLOWER : hero ? Mover.HERO : Mover.NEITHER;
    }
}
