package panelbook.app.assessment;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.matching.Agreement;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;

/**
 * Residuals of pairs of follower and hero. A follower that was matched for several operators stands in one state at a time:
 * that of the agreement it is nearest to; the residuals to the others are set aside.
 */
@Component
class Residuals {

    private final PresetFactsBook presets;
    private final RunBook runs;
    private final Subjects subjects;
    private final Rulebook rules;

    Residuals(PresetFactsBook presets, RunBook runs, Subjects subjects, Rulebook rules) {
        this.presets = presets;
        this.runs = runs;
        this.subjects = subjects;
        this.rules = rules;
    }

    /** Judges every pair that the subject belongs to: its own run against the latest of the other half. */
    List<Judged> judge(Subject subject, List<Agreement> agreements) {
        return judge(subject, agreements, runs::latestOf);
    }

    /** Judges the pairs that the subject belonged to at a moment, each against the other half as it stood then. */
    List<Judged> judgeAsOf(Subject subject, List<Agreement> agreements, Instant moment) {
        return judge(subject, agreements, ids -> runs.latestOf(ids, moment));
    }

    private List<Judged> judge(
            Subject subject, List<Agreement> inForce, Function<Collection<UUID>, List<StoredRun>> latestOf) {
        var agreements = inForce.stream().filter(Agreement::restsOnRuns).toList();
        if (agreements.isEmpty()) {
            return List.of();
        }
        var pairs = pairs(subject, agreements, latestOf);
        var byFollower = new LinkedHashMap<UUID, Map<Agreement, List<Judged>>>();
        for (var agreement : agreements) {
            var follower = pairs.preset(agreement.followerPresetId());
            var figures = pairs.isMeasured(agreement) ? pairs.figures(agreement) : List.<Figure>of();
            var judged = rules.judge(figures, follower, subject.run().id());
            byFollower
                    .computeIfAbsent(follower.presetId(), id -> new LinkedHashMap<>())
                    .put(agreement, judged);
        }
        return settle(byFollower, pairs, inForce);
    }

    private static List<Judged> settle(
            Map<UUID, Map<Agreement, List<Judged>>> byFollower, Pairs pairs, List<Agreement> inForce) {
        var judged = new ArrayList<Judged>();
        byFollower.forEach((follower, ofFollower) -> {
            var last = lastOf(follower, inForce);
            if (!last.restsOnRuns()) {
                ofFollower.values().stream()
                        .flatMap(List::stream)
                        .map(residual -> residual.aside("It was signed off last for " + last.operator()
                                + ", without closing runs, so nothing tells how it was left."))
                        .forEach(judged::add);
                return;
            }
            var state = pairs.nearest(ofFollower.keySet());
            ofFollower.forEach((agreement, residuals) -> residuals.forEach(residual -> judged.add(
                    state == null || state.equals(agreement)
                            ? residual
                            : residual.aside("It is nearer to what was signed off for " + state.operator() + "."))));
        });
        return judged;
    }

    private static Agreement lastOf(UUID follower, List<Agreement> inForce) {
        return inForce.stream()
                .filter(agreement -> agreement.followerPresetId().equals(follower))
                .max(Comparator.comparing(Agreement::signedAt))
                .orElseThrow();
    }

    private Pairs pairs(
            Subject subject, List<Agreement> agreements, Function<Collection<UUID>, List<StoredRun>> latestOf) {
        var ids = agreements.stream()
                .flatMap(a -> Stream.of(a.followerPresetId(), a.heroPresetId()))
                .collect(Collectors.toSet());
        var facts = new HashMap<>(presets.findAll(ids));
        facts.put(subject.preset().presetId(), subject.preset());
        var latest = new HashMap<UUID, UUID>();
        for (var run : latestOf.apply(ids)) {
            latest.put(run.presetId(), run.id());
        }
        latest.put(subject.preset().presetId(), subject.run().id());
        var needed = new HashSet<>(latest.values());
        agreements.forEach(a -> Stream.of(a.followerRunId(), a.heroRunId())
                .flatMap(Stream::ofNullable)
                .forEach(needed::add));
        return new Pairs(facts, latest, subjects.greysOf(needed, facts));
    }

    /** The runs of pairs, then and now, cut down to their greys. */
    private record Pairs(Map<UUID, PresetFacts> facts, Map<UUID, UUID> latest, Map<UUID, RunMeasured> measured) {

        PresetFacts preset(UUID presetId) {
            return Objects.requireNonNull(facts.get(presetId), "preset of a match");
        }

        /** Whether there is all that a residual rests on. */
        boolean isMeasured(Agreement agreement) {
            return latest.containsKey(agreement.followerPresetId()) && latest.containsKey(agreement.heroPresetId());
        }

        List<Figure> figures(Agreement agreement) {
            return new HeroDriftFigures(
                            agreement,
                            run(agreement.followerRunId()),
                            run(agreement.heroRunId()),
                            latestOf(agreement.followerPresetId()),
                            latestOf(agreement.heroPresetId()))
                    .all();
        }

        /** The agreement whose state a follower is nearest to, on the baseline that it has; null when there is none. */
        @Nullable
        Agreement nearest(Collection<Agreement> ofFollower) {
            return ofFollower.stream()
                    .filter(agreement ->
                            !agreement.followerRebased() && latest.containsKey(agreement.followerPresetId()))
                    .min(Comparator.comparingDouble(agreement ->
                            Movement.between(run(agreement.followerRunId()), latestOf(agreement.followerPresetId()))))
                    .orElse(null);
        }

        private RunMeasured latestOf(UUID presetId) {
            return run(Objects.requireNonNull(latest.get(presetId), "a preset of a match has runs"));
        }

        private RunMeasured run(@Nullable UUID id) {
            return Objects.requireNonNull(measured.get(Objects.requireNonNull(id)), "run of a pair");
        }
    }
}
