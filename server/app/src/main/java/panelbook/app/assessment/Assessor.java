package panelbook.app.assessment;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.matching.Agreement;
import panelbook.app.matching.Matches;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.wire.AlertNotice;
import panelbook.wire.Metric;
import panelbook.wire.Purpose;
import panelbook.wire.Rule;

/**
 * Judges a preset as it stands: its latest run by every rule, the pairs that it belongs to, and the causes that follow.
 * Everything happens in the transaction under way, under a lock on the rooms concerned, so that two runs of a room are
 * judged one after the other.
 */
@Service
class Assessor {

    private static final int ROOM_LOCK = 0x726f6f6d;

    private final JdbcClient jdbc;
    private final PresetFactsBook presets;
    private final RunBook runs;
    private final Matches matches;
    private final Subjects subjects;
    private final Rulebook rules;
    private final Residuals residuals;
    private final Baselines baselines;
    private final FindingBook findings;
    private final CauseReporter causes;
    private final Clock clock;

    Assessor(
            JdbcClient jdbc,
            PresetFactsBook presets,
            RunBook runs,
            Matches matches,
            Subjects subjects,
            Rulebook rules,
            Residuals residuals,
            Baselines baselines,
            FindingBook findings,
            CauseReporter causes,
            Clock clock) {
        this.jdbc = jdbc;
        this.presets = presets;
        this.runs = runs;
        this.matches = matches;
        this.subjects = subjects;
        this.rules = rules;
        this.residuals = residuals;
        this.baselines = baselines;
        this.findings = findings;
        this.causes = causes;
        this.clock = clock;
    }

    /** What an assessment came to. */
    record Assessment(List<Judged> findings, List<AlertNotice> alerts) {}

    /**
     * Takes the lock on the rooms that an assessment of the preset can touch: its own and those of the other halves of its
     * matches.
     */
    @Transactional(propagation = Propagation.MANDATORY)
    void lockRoomsOf(PresetFacts preset) {
        var involved = new HashSet<UUID>();
        for (var agreement : matches.inForceOf(List.of(preset.presetId()))) {
            involved.add(agreement.followerPresetId());
            involved.add(agreement.heroPresetId());
        }
        involved.add(preset.presetId());
        presets.findAll(involved).values().stream()
                .map(facts -> facts.roomId() == null ? facts.displayId() : facts.roomId())
                .distinct()
                .sorted()
                .forEach(this::lock);
    }

    private void lock(UUID room) {
        jdbc.sql("select pg_advisory_xact_lock(:kind, :room)")
                .param("kind", ROOM_LOCK)
                .param("room", room.hashCode())
                .query(row -> {});
    }

    /** Whether a run meets its target, without keeping the findings. */
    List<Judged> verify(Subject subject) {
        return rules.judge(
                VerificationFigures.of(subject.preset().target(), subject.run()),
                subject.preset(),
                subject.run().id());
    }

    /**
     * The figures of a run by itself. A follower that was matched since its baseline was moved off its target on purpose: it
     * is judged by the state that was signed off, not by target and baseline; an as-left run always is by its target.
     *
     * @param agreement that the display stands in, or null
     */
    private List<Figure> figuresOfRun(Subject subject, @Nullable Agreement agreement) {
        var run = subject.run();
        var figures = new ArrayList<Figure>();
        figures.add(TimeFigures.certificate(run.instrument(), run.run()));
        if (run.run().purpose() == Purpose.MATCH && agreement == null) {
            // a state that was tried: neither target nor baseline is its measure
            return figures;
        }
        if (judgedByTarget(run.run(), agreement)) {
            figures.addAll(VerificationFigures.of(subject.preset().target(), run));
        }
        if (agreement != null) {
            figures.addAll(OwnDriftFigures.of(subjects.whole(subject, agreement.followerRunId()), "the sign-off", run));
        } else {
            baselines
                    .at(run.run().presetId(), run.run().takenAt())
                    .ifPresent(baseline -> figures.addAll(
                            OwnDriftFigures.of(subjects.whole(subject, baseline.runId()), "the baseline", run)));
        }
        return figures;
    }

    private static boolean judgedByTarget(StoredRun run, @Nullable Agreement agreement) {
        return agreement == null || run.purpose() == Purpose.AS_LEFT;
    }

    /** Judges a run that does not show how its preset stands: its findings are kept, but nothing that stands changes. */
    Assessment judgeLate(Subject subject) {
        var run = subject.run().run();
        var agreement = run.purpose() == Purpose.MATCH ? null : agreementThen(run);
        var judged = rules.judge(figuresOfRun(subject, agreement), subject.preset(), run.id());
        findings.keep(judged, subject.run().instrument().id());
        return new Assessment(judged, List.of());
    }

    private @Nullable Agreement agreementThen(StoredRun run) {
        return matches.inForceOf(List.of(run.presetId())).stream()
                .filter(signed -> signed.followerPresetId().equals(run.presetId())
                        && !signed.followerRebased()
                        && !signed.signedAt().isAfter(run.takenAt()))
                .max(Comparator.comparing(Agreement::signedAt))
                .orElse(null);
    }

    /**
     * Judges a preset by its latest run, and the pairs it belongs to by theirs.
     *
     * @param by who is named in the history of alerts
     */
    Assessment judgeStanding(Subject subject, String by) {
        var preset = subject.preset();
        var agreements = matches.inForceOf(List.of(preset.presetId()));
        var pairs = residuals.judge(subject, agreements);
        var own = rules.judge(
                standingFigures(subject, pairs.stateOf(preset.presetId()), agreements),
                preset,
                subject.run().id());
        var all = Stream.concat(own.stream(), pairs.judged().stream()).toList();
        findings.keep(all, subject.run().instrument().id());
        findings.stand(all);
        letOldFiguresStepDown(preset, own, agreements);
        return new Assessment(all, causes.report(subject, own, agreements, by));
    }

    private List<Figure> standingFigures(Subject subject, @Nullable Agreement agreement, List<Agreement> agreements) {
        var now = clock.instant();
        var run = subject.run().run();
        var figures = new ArrayList<>(figuresOfRun(subject, agreement));
        baselines
                .at(run.presetId(), now)
                .flatMap(baseline -> runs.find(baseline.runId()))
                .ifPresent(baselineRun -> figures.addAll(TimeFigures.recalibration(
                        baselineRun, now, panelHours(subject.preset().displayId()))));
        figures.add(TimeFigures.matchesInQuestion(run, agreements));
        return figures;
    }

    /** What was judged before and not now stands no longer; a verification that was not asked for again stays. */
    private void letOldFiguresStepDown(PresetFacts preset, List<Judged> own, List<Agreement> agreements) {
        var kept = own.stream().map(Judged::slot).collect(Collectors.toCollection(HashSet::new));
        for (var agreement : agreements) {
            if (agreement.followerPresetId().equals(preset.presetId())) {
                for (var metric : Metric.values()) {
                    kept.add(Judged.slot(metric.toString(), agreement.matchId()));
                }
            }
        }
        var rules = EnumSet.allOf(Rule.class);
        if (own.stream().noneMatch(judged -> judged.finding().rule() == Rule.VERIFICATION)) {
            rules.remove(Rule.VERIFICATION);
        }
        findings.stepDown(preset.presetId(), rules, kept);
    }

    private @Nullable Double panelHours(UUID displayId) {
        return jdbc.sql("select hours from panel_hours where display_id = :display order by at desc, id desc limit 1")
                .param("display", displayId)
                .query(Double.class)
                .optional()
                .orElse(null);
    }
}
