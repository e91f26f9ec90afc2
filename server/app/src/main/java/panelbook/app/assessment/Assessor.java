package panelbook.app.assessment;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.alerts.Alerts;
import panelbook.app.matching.Agreement;
import panelbook.app.matching.Matches;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.ReadingBook;
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
    private final ReadingBook readings;
    private final Matches matches;
    private final InstrumentFactsBook instruments;
    private final ToleranceBook tolerances;
    private final Baselines baselines;
    private final FindingBook findings;
    private final Alerts alerts;
    private final Clock clock;

    Assessor(
            JdbcClient jdbc,
            PresetFactsBook presets,
            RunBook runs,
            ReadingBook readings,
            Matches matches,
            InstrumentFactsBook instruments,
            ToleranceBook tolerances,
            Baselines baselines,
            FindingBook findings,
            Alerts alerts,
            Clock clock) {
        this.jdbc = jdbc;
        this.presets = presets;
        this.runs = runs;
        this.readings = readings;
        this.matches = matches;
        this.instruments = instruments;
        this.tolerances = tolerances;
        this.baselines = baselines;
        this.findings = findings;
        this.alerts = alerts;
        this.clock = clock;
    }

    /** What an assessment came to. */
    record Assessment(List<Judged> findings, List<AlertNotice> alerts) {}

    /** A preset with its latest run, ready to be judged. */
    record Subject(PresetFacts preset, RunMeasured run) {}

    /** A run with all its readings. */
    Subject subject(PresetFacts preset, StoredRun run, List<panelbook.colorimetry.signal.Reading> all) {
        var instrument = Objects.requireNonNull(
                instruments.findAll(List.of(run.instrumentId())).get(run.instrumentId()), "instrument of a run");
        return new Subject(preset, RunMeasured.of(run, preset, instrument, all));
    }

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
        return judge(
                VerificationFigures.of(subject.preset().target(), subject.run()),
                subject.preset(),
                subject.run().id(),
                clock.instant());
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
            figures.addAll(OwnDriftFigures.of(whole(subject, agreement.followerRunId()), "the sign-off", run));
        } else {
            baselines
                    .at(run.run().presetId(), run.run().takenAt())
                    .ifPresent(baseline ->
                            figures.addAll(OwnDriftFigures.of(whole(subject, baseline.runId()), "the baseline", run)));
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
        var judged = judge(figuresOfRun(subject, agreement), subject.preset(), run.id(), clock.instant());
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
        var now = clock.instant();
        var preset = subject.preset();
        var agreements = matches.inForceOf(List.of(preset.presetId()));
        var pairs = judgePairs(subject, agreements, now);
        var own = judge(
                standingFigures(subject, pairs.stateOf(preset.presetId()), agreements, now),
                preset,
                subject.run().id(),
                now);
        var all = Stream.concat(own.stream(), pairs.judged().stream()).toList();
        findings.keep(all, subject.run().instrument().id());
        findings.stand(all);
        letOldFiguresStepDown(preset, own, agreements);
        return new Assessment(all, report(subject, own, agreements, by));
    }

    private List<Figure> standingFigures(
            Subject subject, @Nullable Agreement agreement, List<Agreement> agreements, Instant now) {
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

    private RunMeasured whole(Subject subject, UUID runId) {
        if (runId.equals(subject.run().id())) {
            return subject.run();
        }
        var run = runs.find(runId).orElseThrow(() -> new IllegalStateException("no run " + runId));
        return subject(subject.preset(), run, readings.of(runId)).run();
    }

    /**
     * Residuals of pairs.
     *
     * @param judged of all agreements
     * @param states the agreement that each follower stands in
     */
    private record PairsJudged(List<Judged> judged, Map<UUID, Agreement> states) {

        @Nullable
        Agreement stateOf(UUID presetId) {
            return states.get(presetId);
        }
    }

    /**
     * Residuals of every pair in force that the preset belongs to. A follower that was matched for several operators stands
     * in one state at a time: that of the agreement it is nearest to; the residuals to the others are set aside.
     */
    private PairsJudged judgePairs(Subject subject, List<Agreement> agreements, Instant now) {
        if (agreements.isEmpty()) {
            return new PairsJudged(List.of(), Map.of());
        }
        var pairs = new Pairs(subject, agreements);
        var byFollower = new LinkedHashMap<UUID, Map<Agreement, List<Judged>>>();
        for (var agreement : agreements) {
            var follower = pairs.preset(agreement.followerPresetId());
            byFollower
                    .computeIfAbsent(follower.presetId(), id -> new LinkedHashMap<>())
                    .put(
                            agreement,
                            judge(
                                    pairs.figures(agreement),
                                    follower,
                                    subject.run().id(),
                                    now));
        }
        var judged = new ArrayList<Judged>();
        var states = new HashMap<UUID, Agreement>();
        byFollower.forEach((follower, ofFollower) -> {
            var state = nearest(ofFollower);
            if (state != null) {
                states.put(follower, state);
            }
            ofFollower.forEach((agreement, residuals) -> residuals.forEach(residual -> judged.add(
                    state == null || state.equals(agreement)
                            ? residual
                            : residual.aside("It is nearer to what was signed off for " + state.operator() + "."))));
        });
        return new PairsJudged(judged, states);
    }

    /** The agreement with the smallest of largest residuals, among those not in question; null when there is none. */
    private static @Nullable Agreement nearest(Map<Agreement, List<Judged>> residuals) {
        return residuals.entrySet().stream()
                .filter(entry -> entry.getKey().inQuestion() == null)
                .min(Comparator.comparingDouble(entry -> entry.getValue().stream()
                        .mapToDouble(Judged::gravity)
                        .max()
                        .orElse(Double.MAX_VALUE)))
                .map(Map.Entry::getKey)
                .orElse(null);
    }

    private List<Judged> judge(List<Figure> figures, PresetFacts preset, UUID runId, Instant now) {
        return findings.judge(
                figures, preset, runId, tolerances.of(preset.toleranceSetId(), preset.toleranceSetRevision()), now);
    }

    private @Nullable Double panelHours(UUID displayId) {
        return jdbc.sql("select hours from panel_hours where display_id = :display order by at desc, id desc limit 1")
                .param("display", displayId)
                .query(Double.class)
                .optional()
                .orElse(null);
    }

    /** Reports the causes at the preset, at the other halves of its pairs, and at the instrument. */
    private List<AlertNotice> report(Subject subject, List<Judged> own, List<Agreement> agreements, String by) {
        var concerned = new LinkedHashSet<UUID>();
        concerned.add(subject.preset().presetId());
        agreements.forEach(agreement -> {
            concerned.add(agreement.heroPresetId());
            concerned.add(agreement.followerPresetId());
        });
        var withFollowers = new LinkedHashSet<>(concerned);
        matches.inForceOf(concerned).forEach(agreement -> withFollowers.add(agreement.followerPresetId()));
        var standing = findings.standing(withFollowers);
        var facts = presets.findAll(concerned);
        var states = states(concerned);
        var notices = new ArrayList<AlertNotice>();
        for (var presetId : concerned) {
            Causes.at(
                            Objects.requireNonNull(facts.get(presetId)),
                            standing,
                            states.getOrDefault(presetId, new Causes.State(false, false)))
                    .forEach(report -> alerts.report(report, by).ifPresent(notices::add));
        }
        own.stream()
                .filter(judged -> judged.finding().rule() == Rule.CERTIFICATE)
                .map(judged -> Causes.certificate(subject.run().instrument(), judged))
                .forEach(report -> alerts.report(report, by).ifPresent(notices::add));
        return notices;
    }

    private Map<UUID, Causes.State> states(Collection<UUID> presetIds) {
        var states = new HashMap<UUID, Causes.State>();
        jdbc.sql("""
                        select p.id, r.purpose, b.id is null as without_baseline,
                               coalesce(b.run_id = r.id and b.reason is not null, false) as accepted
                        from unnest(:presets) as p (id)
                        join run r on r.id = any (:latest) and r.preset_id = p.id
                        left join baseline b on b.preset_id = p.id and upper_inf(b.during)
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .param(
                        "latest",
                        runs.latestOf(presetIds).stream().map(StoredRun::id).toArray(UUID[]::new))
                .query(row -> {
                    states.put(
                            row.getObject("id", UUID.class),
                            new Causes.State(
                                    row.getBoolean("without_baseline")
                                            || Purpose.AS_LEFT.toString().equals(row.getString("purpose")),
                                    row.getBoolean("accepted")));
                });
        return states;
    }

    /** The runs of pairs, then and now, cut down to their greys. */
    private final class Pairs {

        private final Subject subject;
        private final Map<UUID, PresetFacts> facts;
        private final Map<UUID, StoredRun> latest;
        private final Map<UUID, RunMeasured> measured = new HashMap<>();

        Pairs(Subject subject, List<Agreement> agreements) {
            this.subject = subject;
            var ids = agreements.stream()
                    .flatMap(a -> Stream.of(a.followerPresetId(), a.heroPresetId()))
                    .collect(Collectors.toSet());
            this.facts = presets.findAll(ids);
            this.latest = runs.latestOf(ids).stream().collect(Collectors.toMap(StoredRun::presetId, run -> run));
            latest.put(subject.preset().presetId(), subject.run().run());
            load(agreements);
        }

        private void load(List<Agreement> agreements) {
            var needed = new HashSet<UUID>();
            agreements.forEach(a -> needed.addAll(List.of(a.followerRunId(), a.heroRunId())));
            latest.values().forEach(run -> needed.add(run.id()));
            var stored = runs.findAll(needed);
            var meters = instruments.findAll(
                    stored.stream().map(StoredRun::instrumentId).collect(Collectors.toSet()));
            var greys = readings.greysOf(needed);
            for (var run : stored) {
                measured.put(
                        run.id(),
                        RunMeasured.of(
                                run,
                                preset(run.presetId()),
                                Objects.requireNonNull(meters.get(run.instrumentId())),
                                greys.getOrDefault(run.id(), List.of())));
            }
        }

        PresetFacts preset(UUID presetId) {
            return presetId.equals(subject.preset().presetId())
                    ? subject.preset()
                    : Objects.requireNonNull(facts.get(presetId), "preset of a match");
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

        private RunMeasured latestOf(UUID presetId) {
            return run(Objects.requireNonNull(latest.get(presetId), "a preset of a match has runs")
                    .id());
        }

        private RunMeasured run(UUID id) {
            return Objects.requireNonNull(measured.get(id), "run of a pair");
        }
    }
}
