package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.matching.Agreement;
import panelbook.wire.Purpose;
import panelbook.wire.Rule;

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
     * Lets findings stand on, judged anew where limits or aims were edited since.
     *
     * @param subject the preset and its latest run
     * @param before what stood on the preset until now
     * @param judged slots that the latest run speaks of
     * @param leftRunId run that shows the state the preset was left in, or null
     * @param agreements in force
     * @return the slots of all that stands on
     */
    Set<String> letStand(
            Subject subject,
            List<Judged> before,
            Collection<String> judged,
            @Nullable UUID leftRunId,
            List<Agreement> agreements) {
        var lasting = before.stream()
                .filter(finding -> !judged.contains(finding.slot()))
                .filter(finding -> lasts(finding, subject, leftRunId, agreements))
                .toList();
        var preset = subject.preset();
        var anew = new ArrayList<Judged>();
        var verified = new HashMap<UUID, List<Figure>>();
        var slots = new HashSet<String>();
        for (var finding : lasting) {
            if (finding.isCurrent(preset)) {
                slots.add(finding.slot());
            } else {
                anew.addAll(judgedAnew(finding, subject, verified));
            }
        }
        findings.keep(anew, null);
        findings.stand(anew);
        anew.forEach(finding -> slots.add(finding.slot()));
        return slots;
    }

    private static boolean lasts(
            Judged finding, Subject subject, @Nullable UUID leftRunId, List<Agreement> agreements) {
        return switch (finding.finding().rule()) {
            case VERIFICATION -> subject.run().run().purpose() != Purpose.AS_LEFT;
            case OWN_DRIFT -> leftRunId != null && finding.restsOn(leftRunId);
            case HERO_DRIFT ->
                agreements.stream()
                        .anyMatch(agreement ->
                                agreement.matchId().equals(finding.finding().matchId()));
            case RECALIBRATION, CERTIFICATE, AGREEMENT -> false;
        };
    }

    private List<Judged> judgedAnew(Judged finding, Subject subject, Map<UUID, List<Figure>> verified) {
        var runId = finding.finding().runId();
        if (runId == null) {
            return List.of();
        }
        var preset = subject.preset();
        if (finding.finding().rule() != Rule.VERIFICATION) {
            return rules.judge(List.of(finding.figure()), preset, runId);
        }
        var figures = verified.computeIfAbsent(
                runId, id -> VerificationFigures.of(preset.target(), subjects.whole(subject, id)));
        return rules.judge(
                figures.stream()
                        .filter(figure -> figure.metric() == finding.finding().metric())
                        .toList(),
                preset,
                runId);
    }
}
