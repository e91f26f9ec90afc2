package panelbook.app.assessment;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
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
import panelbook.app.runs.RunMeasured;
import panelbook.wire.AlertNotice;
import panelbook.wire.Purpose;

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
    private final SignedStates signedStates;
    private final LastingFindings lasting;
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
            SignedStates signedStates,
            LastingFindings lasting,
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
        this.signedStates = signedStates;
        this.lasting = lasting;
        this.causes = causes;
        this.clock = clock;
    }

    /** What an assessment came to. */
    record Assessment(List<Judged> findings, List<AlertNotice> alerts) {}

    /**
     * Takes the locks on the rooms that an assessment of the presets can touch: their own and those of the other halves of
     * their matches. Whoever judges several presets takes all locks before the first of them, in one order.
     */
    @Transactional(propagation = Propagation.MANDATORY)
    void lockRoomsOf(Collection<PresetFacts> judged) {
        var involved = judged.stream().map(PresetFacts::presetId).collect(Collectors.toCollection(HashSet::new));
        for (var agreement : matches.inForceOf(Set.copyOf(involved))) {
            involved.add(agreement.followerPresetId());
            involved.add(agreement.heroPresetId());
        }
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
                subject.verification(), subject.preset(), subject.run().id());
    }

    /**
     * The figures of a run by itself: against its target, and against the state that its preset was left in.
     *
     * @param left the run that shows that state, or null
     */
    private static List<Figure> figuresOfRun(Subject subject, @Nullable Left left) {
        var run = subject.run();
        var figures = new ArrayList<Figure>();
        figures.add(TimeFigures.certificate(run.instrument(), run.run()));
        if (left == null || !left.signed() || run.run().purpose() == Purpose.AS_LEFT) {
            figures.addAll(subject.verification());
        }
        figures.addAll(drift(left, run));
        return figures;
    }

    private static List<Figure> drift(@Nullable Left left, RunMeasured run) {
        return left == null || left.run() == null
                ? List.of()
                : OwnDriftFigures.of(left.run(), left.signed() ? "the sign-off" : "the baseline", run);
    }

    /**
     * The state that a preset was left in when a run was taken. A follower that was matched since its baseline was moved off
     * its target on purpose: it is judged by what was signed off, not by target and baseline.
     *
     * @param run that shows it; null when it was signed without closing runs
     * @param signed whether a match left it so, rather than a calibration
     */
    private record Left(@Nullable RunMeasured run, boolean signed) {

        @Nullable
        UUID runId() {
            return run == null ? null : run.id();
        }
    }

    private @Nullable Left left(Subject subject) {
        var run = subject.run().run();
        var states = signedStates.of(subject);
        if (states.signed()) {
            return new Left(states.nearest(), true);
        }
        return baselines
                .at(run.presetId(), run.takenAt())
                .map(baseline -> new Left(subjects.whole(subject, baseline.runId()), false))
                .orElse(null);
    }

    /**
     * Judges a run that does not show how its preset stands: its findings are kept, but nothing that stands changes. Of a
     * state that was tried while matching, neither target nor baseline is the measure.
     */
    Assessment judgeLate(Subject subject, String by) {
        var run = subject.run();
        var figures = run.run().purpose() == Purpose.MATCH
                ? List.of(TimeFigures.certificate(run.instrument(), run.run()))
                : figuresOfRun(subject, left(subject));
        var judged = rules.judge(figures, subject.preset(), run.id());
        findings.keep(judged, run.instrument().id());
        return new Assessment(judged, causes.reportMeter(subject, judged, by));
    }

    /**
     * Judges a preset by its latest run, and the pairs it belongs to by theirs.
     *
     * @param by who is named in the history of alerts
     */
    Assessment judgeStanding(Subject subject, String by) {
        var preset = subject.preset();
        var agreements = matches.inForceOf(List.of(preset.presetId()));
        var left = left(subject);
        var own = rules.judge(
                standingFigures(subject, left, agreements),
                preset,
                subject.run().id());
        var all = Stream.concat(own.stream(), residuals.judge(subject, agreements).stream())
                .toList();
        findings.keep(all, subject.run().instrument().id());
        var before = findings.standing(List.of(preset.presetId()));
        findings.stand(all);
        var slots = new HashSet<>(Judged.slotsOn(preset.presetId(), all));
        slots.addAll(lasting.letStand(
                subject, before, slots, left == null ? null : left.runId(), agreements, run -> drift(left, run)));
        findings.stepDown(preset.presetId(), slots);
        return new Assessment(all, causes.report(subject, own, agreements, by));
    }

    private List<Figure> standingFigures(Subject subject, @Nullable Left left, List<Agreement> agreements) {
        var now = clock.instant();
        var run = subject.run().run();
        var figures = new ArrayList<>(figuresOfRun(subject, left));
        baselines
                .inForce(run.presetId())
                .flatMap(baseline -> runs.find(baseline.runId()))
                .ifPresent(baselineRun -> figures.addAll(TimeFigures.recalibration(
                        baselineRun, now, panelHours(subject.preset().displayId()))));
        figures.add(TimeFigures.matchesInQuestion(run, agreements));
        return figures;
    }

    private @Nullable Double panelHours(UUID displayId) {
        return jdbc.sql("select hours from panel_hours where display_id = :display order by at desc, id desc limit 1")
                .param("display", displayId)
                .query(Double.class)
                .optional()
                .orElse(null);
    }
}
