package panelbook.app.assessment;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.runs.PresetFacts;
import panelbook.wire.Finding;

/** Applies the limits of a preset's tolerance set to figures. */
@Component
class Rulebook {

    private final ToleranceBook tolerances;
    private final Clock clock;

    Rulebook(ToleranceBook tolerances, Clock clock) {
        this.tolerances = tolerances;
        this.clock = clock;
    }

    /** Judges figures; those without a limit in the tolerance set are left out. */
    List<Judged> judge(List<Figure> figures, PresetFacts preset, UUID runId) {
        var set = tolerances.of(preset.toleranceSetId(), preset.toleranceSetRevision());
        var now = clock.instant();
        var judged = new ArrayList<Judged>();
        for (var figure : figures) {
            var limit = set.limit(figure.metric());
            if (limit != null) {
                var judgement = Judgement.of(figure, limit, set);
                judged.add(new Judged(
                        finding(figure, preset, runId, set, limit, judgement, now),
                        judgement.clear(),
                        preset.targetRevision(),
                        figure.blame()));
            }
        }
        return judged;
    }

    private static Finding finding(
            Figure figure,
            PresetFacts preset,
            UUID run,
            Tolerances tolerances,
            Tolerances.Limit limit,
            Judgement judgement,
            Instant now) {
        return new Finding(
                UUID.randomUUID(),
                preset.presetId(),
                preset.path(),
                run,
                figure.matchId(),
                figure.metric().rule(),
                figure.metric(),
                figure.value(),
                limit.value(),
                figure.metric().unit(),
                figure.uncertainty(),
                judgement.conformance(),
                judgement.decision(),
                figure.explanation(),
                figure.readings(),
                figure.corrections(),
                tolerances.setId(),
                tolerances.setName(),
                tolerances.revision(),
                limit.basis(),
                limit.document(),
                limit.clause(),
                now);
    }
}
