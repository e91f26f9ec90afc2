package panelbook.app.assessment;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.drift.Attribution;
import panelbook.colorimetry.drift.Mover;

/**
 * Who moved since sign-off, kept with a finding.
 *
 * @param mover as the library tells
 * @param followerShare of the residual; null when the residual is exactly zero
 * @param heroShare of the residual; null when the residual is exactly zero
 * @param heroPresetId the hero
 * @param setAside whether the agreement was in question, or the display stands in a state signed off for another operator:
 *     the finding is then kept, but raises nothing
 */
record Blame(
        Mover mover,
        @Nullable Double followerShare,
        @Nullable Double heroShare,
        UUID heroPresetId,
        boolean setAside) {

    static Blame of(Attribution attribution, UUID heroPresetId, boolean setAside) {
        return new Blame(
                attribution.mover(),
                boxed(attribution.followerShare()),
                boxed(attribution.heroShare()),
                heroPresetId,
                setAside);
    }

    /** Whether the residual is to be laid at the hero: it moved, and explains more of it than the follower. */
    boolean onHero() {
        return switch (mover) {
            case HERO -> true;
            case BOTH -> heroShare != null && followerShare != null && heroShare > followerShare;
            case FOLLOWER, NEITHER -> false;
        };
    }

    Blame aside() {
        return new Blame(mover, followerShare, heroShare, heroPresetId, true);
    }

    private static @Nullable Double boxed(java.util.OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }
}
