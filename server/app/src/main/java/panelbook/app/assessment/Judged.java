package panelbook.app.assessment;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Decision;
import panelbook.wire.Finding;

/**
 * A finding with what the causes need to know of it.
 *
 * @param clear whether it is so far inside its limit that an alert it holds open may close
 * @param blame who moved, for figures of the drift from the hero
 */
record Judged(Finding finding, boolean clear, @Nullable Blame blame) {

    boolean beyond() {
        return finding.decision() == Decision.BEYOND;
    }

    /** Whether it is a residual to be laid at the follower; one of an agreement in question is laid at nobody. */
    boolean liesAtFollower() {
        return blame != null && !blame.inQuestion() && !blame.onHero();
    }

    /** Whether it is a residual to be laid at this hero. */
    boolean liesAtHero(UUID heroPresetId) {
        return blame != null
                && !blame.inQuestion()
                && blame.onHero()
                && blame.heroPresetId().equals(heroPresetId);
    }

    /** What it is a figure of: the same slot of a later assessment takes its place. */
    String slot() {
        return slot(finding.metric().toString(), finding.matchId());
    }

    /** The slot among those of all presets. */
    String place() {
        return finding.presetId() + " " + slot();
    }

    static String slot(String metric, @Nullable UUID matchId) {
        return matchId == null ? metric : metric + " of " + matchId;
    }

    /** How far beyond its limit, for putting the gravest first: 1 at the limit. */
    double gravity() {
        var value = Math.abs(finding.value());
        var limit = finding.limit();
        if (finding.metric().lowerLimit()) {
            return value == 0 ? Double.MAX_VALUE : limit / value;
        }
        return limit == 0 ? value : value / limit;
    }
}
