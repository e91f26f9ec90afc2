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

    /** Whether it is a residual to be laid at the follower; one that is set aside is laid at nobody. */
    boolean liesAtFollower() {
        return blame != null && !blame.setAside() && !blame.onHero();
    }

    /** Whether it is a residual to be laid at this hero. */
    boolean liesAtHero(UUID heroPresetId) {
        return blame != null
                && !blame.setAside()
                && blame.onHero()
                && blame.heroPresetId().equals(heroPresetId);
    }

    /** Whether it counts for what is said of a run: a residual that is set aside does not. */
    boolean counts() {
        return blame == null || !blame.setAside();
    }

    /** The same, set aside with a word why. */
    Judged aside(String why) {
        var f = finding;
        return new Judged(
                new Finding(
                        f.id(),
                        f.presetId(),
                        f.preset(),
                        f.runId(),
                        f.matchId(),
                        f.rule(),
                        f.metric(),
                        f.value(),
                        f.limit(),
                        f.unit(),
                        f.uncertainty(),
                        f.conformance(),
                        f.decision(),
                        f.explanation() + " " + why,
                        f.readings(),
                        f.toleranceSetId(),
                        f.toleranceSet(),
                        f.toleranceSetVersion(),
                        f.basis(),
                        f.document(),
                        f.clause(),
                        f.assessedAt()),
                clear,
                blame == null ? null : blame.aside());
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
