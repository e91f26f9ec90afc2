package panelbook.app.assessment;

import java.util.Collection;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.app.runs.PresetFacts;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.ReadingRef;

/**
 * A finding with what the causes need to know of it.
 *
 * @param clear whether it is so far inside its limit that an alert it holds open may close
 * @param targetRevision revision of the preset's target that it was judged by
 * @param blame who moved, for figures of the drift from the hero
 */
record Judged(
        Finding finding,
        boolean clear,
        long targetRevision,
        @Nullable Blame blame) {

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
                        f.corrections(),
                        f.toleranceSetId(),
                        f.toleranceSet(),
                        f.toleranceSetVersion(),
                        f.basis(),
                        f.document(),
                        f.clause(),
                        f.assessedAt()),
                clear,
                targetRevision,
                blame == null ? null : blame.aside());
    }

    /** Whether it was judged by the limits and the aims that hold for its preset now. */
    boolean isCurrent(PresetFacts preset) {
        return finding.toleranceSetId().equals(preset.toleranceSetId())
                && finding.toleranceSetVersion() == preset.toleranceSetRevision()
                && targetRevision == preset.targetRevision();
    }

    /** Its figure, to be judged by other limits. */
    Figure figure() {
        return new Figure(
                finding.metric(),
                finding.value(),
                finding.uncertainty(),
                finding.explanation(),
                finding.readings(),
                finding.matchId(),
                blame,
                finding.corrections(),
                false);
    }

    /** The runs that it rests on. */
    Set<UUID> runs() {
        return finding.readings().stream().map(ReadingRef::runId).collect(Collectors.toSet());
    }

    /** Whether it rests on a reading of a run. */
    boolean restsOn(UUID runId) {
        return finding.readings().stream().anyMatch(reading -> reading.runId().equals(runId));
    }

    /** What it is a figure of: the same slot of a later assessment takes its place. */
    String slot() {
        return slot(finding.metric().toString(), finding.matchId());
    }

    /** The slot among those of all presets. */
    String place() {
        return finding.presetId() + " " + slot();
    }

    /** The slots of findings on a preset. */
    static Set<String> slotsOn(UUID presetId, Collection<Judged> judged) {
        return judged.stream()
                .filter(j -> j.finding().presetId().equals(presetId))
                .map(Judged::slot)
                .collect(Collectors.toSet());
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
