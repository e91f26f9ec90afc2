package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.matching.Agreement;
import panelbook.app.runs.RunMeasured;
import panelbook.wire.Purpose;

/**
 * What an earlier run showed and the latest one does not speak of, since it holds other patches or is judged by other
 * rules. It stands on: that nobody looked again does not make it gone.
 */
@Component
class LastingFindings {

    private final Subjects subjects;
    private final Rulebook rules;
    private final FindingBook findings;

    LastingFindings(Subjects subjects, Rulebook rules, FindingBook findings) {
        this.subjects = subjects;
        this.rules = rules;
        this.findings = findings;
    }

    /**
     * Lets findings stand on, judged anew where limits or aims were edited since, or a correction was made or withdrawn.
     *
     * @param subject the preset and its latest run
     * @param before what stood on the preset until now
     * @param judged slots that the latest run speaks of
     * @param leftRunId run that shows the state the preset was left in, or null
     * @param agreements in force
     * @param ownDrift the figures of a run's drift from the state that the preset was left in
     * @return the slots of all that stands on
     */
    Set<String> letStand(
            Subject subject,
            List<Judged> before,
            Collection<String> judged,
            @Nullable UUID leftRunId,
            List<Agreement> agreements,
            Function<RunMeasured, List<Figure>> ownDrift) {
        var lasting = before.stream()
                .filter(finding -> !judged.contains(finding.slot()))
                .filter(finding -> lasts(finding, subject, leftRunId, agreements))
                .toList();
        var preset = subject.preset();
        var anew = new ArrayList<Judged>();
        var figures = new FiguresAnew(subject, ownDrift);
        var slots = new HashSet<String>();
        for (var finding : lasting) {
            if (finding.isCurrent(preset) && isReadAsNow(finding, subject)) {
                slots.add(finding.slot());
            } else {
                anew.addAll(judgedAnew(finding, subject, figures));
            }
        }
        findings.keep(anew, null);
        findings.stand(anew);
        anew.forEach(finding -> slots.add(finding.slot()));
        return slots;
    }

    /** Whether a finding of an earlier run stands on beside a run that does not speak of it. */
    static boolean lasts(Judged finding, Subject subject, @Nullable UUID leftRunId, List<Agreement> agreements) {
        return switch (finding.finding().rule()) {
            case VERIFICATION -> subject.run().run().purpose() != Purpose.AS_LEFT;
            case OWN_DRIFT -> leftRunId != null && finding.restsOn(leftRunId);
            case HERO_DRIFT ->
                agreements.stream()
                        .anyMatch(agreement -> agreement.restsOnRuns()
                                && agreement.matchId().equals(finding.finding().matchId()));
            // worked out from the whole series each time
            case STEP, RECALIBRATION, CERTIFICATE, AGREEMENT -> false;
        };
    }

    /** Whether the readings it rests on would be corrected as they were; those of other presets are taken to be. */
    private boolean isReadAsNow(Judged finding, Subject subject) {
        return switch (finding.finding().rule()) {
            case VERIFICATION, OWN_DRIFT ->
                new HashSet<>(subjects.correctionsOf(subject, finding.runs()))
                        .equals(Set.copyOf(finding.finding().corrections()));
            case STEP, HERO_DRIFT, RECALIBRATION, CERTIFICATE, AGREEMENT -> true;
        };
    }

    private List<Judged> judgedAnew(Judged finding, Subject subject, FiguresAnew figures) {
        var runId = finding.finding().runId();
        if (runId == null) {
            return List.of();
        }
        var anew = switch (finding.finding().rule()) {
            case VERIFICATION -> figures.verification(runId);
            case OWN_DRIFT -> isReadAsNow(finding, subject) ? List.of(finding.figure()) : figures.ownDrift(runId);
            case STEP, HERO_DRIFT, RECALIBRATION, CERTIFICATE, AGREEMENT -> List.of(finding.figure());
        };
        return rules.judge(
                anew.stream()
                        .filter(figure -> figure.metric() == finding.finding().metric())
                        .toList(),
                subject.preset(),
                runId);
    }

    /** Figures of earlier runs, worked out once for each. */
    private final class FiguresAnew {

        private final Subject subject;
        private final Function<RunMeasured, List<Figure>> drift;
        private final Map<UUID, List<Figure>> verified = new HashMap<>();
        private final Map<UUID, List<Figure>> drifted = new HashMap<>();

        FiguresAnew(Subject subject, Function<RunMeasured, List<Figure>> drift) {
            this.subject = subject;
            this.drift = drift;
        }

        List<Figure> verification(UUID runId) {
            return verified.computeIfAbsent(
                    runId, id -> VerificationFigures.of(subject.preset().target(), subjects.whole(subject, id)));
        }

        List<Figure> ownDrift(UUID runId) {
            return drifted.computeIfAbsent(runId, id -> drift.apply(subjects.whole(subject, id)));
        }
    }
}
