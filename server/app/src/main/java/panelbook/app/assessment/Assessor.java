package panelbook.app.assessment;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
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
import panelbook.app.runs.StoredRun;
import panelbook.wire.AlertNotice;
import panelbook.wire.Metric;
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
    private final Rulebook rules;
    private final Residuals residuals;
    private final Baselines baselines;
    private final FindingBook findings;
    private final Subjects subjects;
    private final LeftStates left;
    private final EarlierFindings earlier;
    private final LastingFindings lasting;
    private final Steps steps;
    private final CauseReporter causes;
    private final Clock clock;

    Assessor(
            JdbcClient jdbc,
            PresetFactsBook presets,
            RunBook runs,
            Matches matches,
            Rulebook rules,
            Residuals residuals,
            Baselines baselines,
            FindingBook findings,
            Subjects subjects,
            LeftStates left,
            EarlierFindings earlier,
            LastingFindings lasting,
            Steps steps,
            CauseReporter causes,
            Clock clock) {
        this.jdbc = jdbc;
        this.presets = presets;
        this.runs = runs;
        this.matches = matches;
        this.rules = rules;
        this.residuals = residuals;
        this.baselines = baselines;
        this.findings = findings;
        this.subjects = subjects;
        this.left = left;
        this.earlier = earlier;
        this.lasting = lasting;
        this.steps = steps;
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
     * Judges a run that does not show how its preset stands: its findings are kept, but nothing that stands changes. Of a
     * state that was tried while matching, neither target nor baseline is the measure.
     */
    Assessment judgeLate(Subject subject, String by) {
        var run = subject.run();
        var figures = run.run().purpose() == Purpose.MATCH
                ? List.of(TimeFigures.certificate(run.instrument(), run.run()))
                : LeftStates.figures(subject, left.at(subject));
        var judged = rules.judge(figures, subject.preset(), run.id());
        findings.keep(judged, run.instrument().id());
        var notices = new ArrayList<>(causes.reportMeter(subject, judged, by));
        if (run.run().purpose() != Purpose.MATCH
                && !Boolean.FALSE.equals(run.run().warmedUp())
                && !subject.preset().retired()) {
            notices.addAll(causes.reportSteps(subject.preset(), by));
        }
        return new Assessment(judged, notices);
    }

    /**
     * Judges a preset by its latest run, and the pairs it belongs to by theirs.
     *
     * @param by who is named in the history of alerts
     */
    Assessment judgeStanding(Subject subject, String by) {
        var stood = stand(subject, matches.inForceOf(List.of(subject.preset().presetId())));
        return new Assessment(stood.all(), causes.report(subject, stood.own(), stood.agreements(), by));
    }

    /**
     * Judges presets as if what stood until now had never been, each by its latest run, and without a word to the alerts:
     * what it comes to is reported once all that a mistake touched has been judged.
     *
     * @param latest the latest run of each; a preset without one has nothing standing on it
     */
    List<Stood> standAnew(Collection<PresetFacts> touched, Map<UUID, StoredRun> latest) {
        var ids = touched.stream().map(PresetFacts::presetId).collect(Collectors.toSet());
        earlier.bringBack(ids);
        judgeQuestionsOfFollowers(ids);
        return touched.stream()
                .filter(preset -> latest.containsKey(preset.presetId()))
                .map(preset -> subjects.of(preset, Objects.requireNonNull(latest.get(preset.presetId()))))
                .map(subject -> stand(
                        subject, matches.inForceOf(List.of(subject.preset().presetId()))))
                .toList();
    }

    /**
     * What stands on a preset and its pairs now.
     *
     * @param own what stands on the preset itself
     * @param all the pairs too
     */
    record Stood(Subject subject, List<Judged> own, List<Judged> all, List<Agreement> agreements) {}

    private Stood stand(Subject subject, List<Agreement> agreements) {
        var preset = subject.preset();
        var state = left.at(subject);
        var own = rules.judge(
                standingFigures(subject, state, agreements),
                preset,
                subject.run().id());
        var all = Stream.concat(own.stream(), residuals.judge(subject, agreements).stream())
                .toList();
        findings.keep(all, subject.run().instrument().id());
        var before = findings.standing(List.of(preset.presetId()));
        findings.stand(all);
        var slots = new HashSet<>(Judged.slotsOn(preset.presetId(), all));
        slots.addAll(lasting.letStand(
                subject,
                before,
                slots,
                state.map(LeftStates.Left::runId).orElse((UUID) null),
                agreements,
                run -> LeftStates.drift(state, run)));
        findings.stepDown(preset.presetId(), slots);
        return new Stood(subject, own, all, agreements);
    }

    /**
     * A hero has a new baseline, or has lost one: which matches are in question by their follower's own baseline changes
     * with it. Findings are made to stand; they are reported with what is judged next on the hero.
     */
    void judgeQuestionsOfFollowers(Collection<UUID> heroPresetIds) {
        var followers = matches.inForceOf(heroPresetIds).stream()
                .filter(agreement -> heroPresetIds.contains(agreement.heroPresetId()))
                .map(Agreement::followerPresetId)
                .collect(Collectors.toSet());
        if (followers.isEmpty()) {
            return;
        }
        var facts = presets.findAll(followers);
        var agreements = matches.inForceOf(followers);
        var standing = findings.standing(followers).stream()
                .filter(judged -> judged.finding().metric() == Metric.MATCHES_IN_QUESTION)
                .collect(Collectors.toMap(
                        judged -> judged.finding().presetId(),
                        judged -> judged.finding().explanation()));
        for (var run : runs.latestOf(followers)) {
            var preset = Objects.requireNonNull(facts.get(run.presetId()), "facts of a follower");
            var figure = TimeFigures.matchesInQuestion(
                    run,
                    agreements.stream()
                            .filter(a -> a.followerPresetId().equals(run.presetId())
                                    || a.heroPresetId().equals(run.presetId()))
                            .toList());
            if (!figure.explanation().equals(standing.get(run.presetId()))) {
                var judged = rules.judge(List.of(figure), preset, run.id());
                findings.keep(judged, null);
                findings.stand(judged);
            }
        }
    }

    private List<Figure> standingFigures(Subject subject, Optional<LeftStates.Left> state, List<Agreement> agreements) {
        var now = clock.instant();
        var run = subject.run().run();
        var figures = new ArrayList<>(LeftStates.figures(subject, state));
        baselines
                .inForce(run.presetId())
                .flatMap(baseline -> runs.find(baseline.runId()))
                .ifPresent(baselineRun -> figures.addAll(TimeFigures.recalibration(
                        baselineRun,
                        now,
                        panelHoursAt(baselineRun.id()),
                        panelHours(subject.preset().displayId()))));
        figures.add(TimeFigures.matchesInQuestion(run, agreements));
        figures.addAll(steps.figures(subject));
        return figures;
    }

    private @Nullable Double panelHoursAt(UUID runId) {
        return jdbc.sql("select hours from counted_panel_hours where run_id = :run order by id desc limit 1")
                .param("run", runId)
                .query(Double.class)
                .optional()
                .orElse(null);
    }

    private @Nullable Double panelHours(UUID displayId) {
        return jdbc.sql(
                        "select hours from counted_panel_hours where display_id = :display order by at desc, id desc limit 1")
                .param("display", displayId)
                .query(Double.class)
                .optional()
                .orElse(null);
    }
}
