package panelbook.app.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.matching.Agreement;
import panelbook.app.matching.Matches;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.wire.Baseline;

/**
 * What would stand on presets if a mistake had not been made. What an earlier run showed and the latest one does not speak of
 * stands on; so the runs and sign-offs since the baselines are gone through again, one after the other. Limits and heroes are
 * those of now.
 */
@Component
class EarlierFindings {

    private final RunBook runs;
    private final PresetFactsBook presets;
    private final Matches matches;
    private final Baselines baselines;
    private final Subjects subjects;
    private final LeftStates left;
    private final Rulebook rules;
    private final Residuals residuals;
    private final FindingBook findings;

    EarlierFindings(
            RunBook runs,
            PresetFactsBook presets,
            Matches matches,
            Baselines baselines,
            Subjects subjects,
            LeftStates left,
            Rulebook rules,
            Residuals residuals,
            FindingBook findings) {
        this.runs = runs;
        this.presets = presets;
        this.matches = matches;
        this.baselines = baselines;
        this.subjects = subjects;
        this.left = left;
        this.rules = rules;
        this.residuals = residuals;
        this.findings = findings;
    }

    /** A moment at which a preset was judged by a run. */
    private record Moment(Instant at, StoredRun run) {}

    /**
     * Lets stand on the presets, and as residuals on the followers of those that are heroes, what stood there by all runs so
     * far; nothing else stands on the presets then.
     */
    void bringBack(Collection<UUID> touched) {
        var agreements = matches.inForceOf(touched);
        var pairs = agreements.stream().map(Agreement::matchId).collect(Collectors.toSet());
        var facts = presets.findAll(
                Stream.concat(touched.stream(), partners(agreements)).collect(Collectors.toSet()));
        var standing = new LinkedHashMap<String, Judged>();
        for (var moment : moments(touched, agreements)) {
            var preset = Objects.requireNonNull(facts.get(moment.run().presetId()), "facts of a preset");
            follow(standing, moment, preset, touched.contains(preset.presetId()), pairs);
        }
        stepDown(touched, facts.keySet(), pairs);
        findings.keep(List.copyOf(standing.values()), null);
        findings.stand(List.copyOf(standing.values()));
    }

    private static Stream<UUID> partners(Collection<Agreement> agreements) {
        return agreements.stream().flatMap(a -> Stream.of(a.followerPresetId(), a.heroPresetId()));
    }

    private void stepDown(Collection<UUID> touched, Set<UUID> all, Set<UUID> pairs) {
        touched.forEach(preset -> findings.stepDown(preset, List.of()));
        findings.stepDown(all, finding -> finding.matchId() != null && pairs.contains(finding.matchId()));
    }

    /** In the order of time: when a run was taken, and when a match was signed by the runs that there were. */
    private List<Moment> moments(Collection<UUID> touched, List<Agreement> agreements) {
        var starts = new HashMap<UUID, Instant>();
        runs.latestOf(touched).forEach(latest -> starts.put(latest.presetId(), startOf(latest)));
        var moments = new ArrayList<Moment>();
        for (var agreement : agreements) {
            var pair = Set.of(agreement.followerPresetId(), agreement.heroPresetId());
            var at = agreement.signedAt();
            pair.forEach(preset -> starts.merge(preset, at, (one, other) -> one.isBefore(other) ? one : other));
            runs.latestOf(pair, at).forEach(run -> moments.add(new Moment(at, run)));
        }
        starts.forEach((preset, from) ->
                runs.standingSince(preset, from).forEach(run -> moments.add(new Moment(run.takenAt(), run))));
        moments.sort(Comparator.comparing(Moment::at)
                .thenComparing(moment -> moment.run().receivedAt()));
        return moments;
    }

    /** Before the baseline there is nothing that could stand on, but for residuals, which last as long as their match. */
    private Instant startOf(StoredRun latest) {
        return baselines
                .at(latest.presetId(), latest.takenAt())
                .map(Baseline::from)
                .orElse(Instant.EPOCH);
    }

    /** One step: what a run shows at a moment, and what of the things before it stands on beside it. */
    private void follow(
            Map<String, Judged> standing, Moment moment, PresetFacts preset, boolean whole, Set<UUID> pairs) {
        var subject = subjects.of(preset, moment.run());
        var own = matches.inForceThen(List.of(preset.presetId()), moment.at()).stream()
                .filter(then -> pairs.contains(then.matchId()))
                .toList();
        var shown = new ArrayList<>(residuals.judgeAsOf(subject, own, moment.at()));
        if (whole) {
            var state = left.at(subject);
            shown.addAll(rules.judge(
                    LeftStates.figures(subject, state), preset, moment.run().id()));
            letGo(standing, subject, shown, state.map(LeftStates.Left::runId).orElse((UUID) null), own);
        }
        shown.forEach(judged -> standing.put(judged.place(), judged));
    }

    private static void letGo(
            Map<String, Judged> standing,
            Subject subject,
            List<Judged> shown,
            @Nullable UUID leftRun,
            List<Agreement> agreements) {
        var preset = subject.preset().presetId();
        var slots = Judged.slotsOn(preset, shown);
        standing.values()
                .removeIf(earlier -> earlier.finding().presetId().equals(preset)
                        && !slots.contains(earlier.slot())
                        && !LastingFindings.lasts(earlier, subject, leftRun, agreements));
    }
}
