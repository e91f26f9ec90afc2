package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.alerts.Alerts;
import panelbook.app.matching.Matches;
import panelbook.app.runs.AmendmentJudge;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.wire.AlertNotice;
import panelbook.wire.Baseline;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.JudgedAnew;
import panelbook.wire.RunVerdict;

/** Judges what depended on a mistake as if it had not been made. */
@Service
class Amendments implements AmendmentJudge {

    private final Assessor assessor;
    private final Verdicts verdicts;
    private final Baselines baselines;
    private final Subjects subjects;
    private final Rulebook rules;
    private final FindingBook findings;
    private final CauseReporter causes;
    private final Alerts alerts;
    private final Matches matches;
    private final PresetFactsBook presets;
    private final RunBook runs;

    Amendments(
            Assessor assessor,
            Verdicts verdicts,
            Baselines baselines,
            Subjects subjects,
            Rulebook rules,
            FindingBook findings,
            CauseReporter causes,
            Alerts alerts,
            Matches matches,
            PresetFactsBook presets,
            RunBook runs) {
        this.assessor = assessor;
        this.verdicts = verdicts;
        this.baselines = baselines;
        this.subjects = subjects;
        this.rules = rules;
        this.findings = findings;
        this.causes = causes;
        this.alerts = alerts;
        this.matches = matches;
        this.presets = presets;
        this.runs = runs;
    }

    /** A run that was entered, with whether it became the baseline. */
    private record Admitted(Subject subject, Verdicts.Outcome outcome) {}

    @Override
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(Collection<UUID> presetIds) {
        assessor.lockRoomsOf(presets.findAll(presetIds).values());
    }

    @Override
    @Transactional(propagation = Propagation.MANDATORY)
    public Outcome judge(Amendment amendment) {
        var touched = touched(amendment);
        lock(touched);
        var admitted = admit(amendment, withdrawBaselines(amendment));
        var facts = presets.findAll(touched);
        var concerned = withPartners(touched);
        var notices = new ArrayList<>(forget(amendment, concerned));
        var stood = standAnew(touched, facts);
        notices.addAll(causes.reportAt(concerned, amendment.by()));
        stood.values().forEach(one -> notices.addAll(causes.reportMeter(one.subject(), one.own(), amendment.by())));
        notices.addAll(reportMeters(amendment));
        var given = new HashMap<UUID, RunVerdict>();
        for (var one : admitted) {
            given.put(one.subject().run().id(), verdict(one, stood, notices, amendment.by()));
        }
        return new Outcome(given, judgedAnew(touched, facts), List.copyOf(notices));
    }

    /** The presets to judge anew: those of the runs, and those of matches that closed with a run that was withdrawn. */
    private Set<UUID> touched(Amendment amendment) {
        var touched = new LinkedHashSet<UUID>();
        amendment.withdrawn().forEach(run -> touched.add(run.presetId()));
        amendment.entered().forEach(one -> touched.add(one.run().presetId()));
        touched.addAll(amendment.presets());
        touched.addAll(matches.presetsClosedWith(ids(amendment.withdrawn())));
        return touched;
    }

    private Set<UUID> withPartners(Set<UUID> touched) {
        var concerned = new LinkedHashSet<>(touched);
        for (var agreement : matches.inForceOf(touched)) {
            concerned.add(agreement.followerPresetId());
            concerned.add(agreement.heroPresetId());
        }
        return concerned;
    }

    /** The reasons that persons gave for the baselines that are withdrawn, by run. */
    private Map<UUID, String> withdrawBaselines(Amendment amendment) {
        var reasons = new HashMap<UUID, String>();
        inOrder(amendment.withdrawn())
                .flatMap(run -> baselines.ofRun(run.id()).stream())
                .forEach(baseline -> {
                    if (baseline.reason() != null) {
                        reasons.put(baseline.runId(), baseline.reason());
                    }
                });
        inOrder(amendment.withdrawn())
                .forEach(run -> baselines
                        .ofRun(run.id())
                        .ifPresent(baseline -> baselines.withdraw(baseline, amendment.why(), amendment.by())));
        return reasons;
    }

    private static Stream<StoredRun> inOrder(Collection<StoredRun> all) {
        return all.stream().sorted(Comparator.comparing(StoredRun::takenAt).thenComparing(StoredRun::receivedAt));
    }

    private List<Admitted> admit(Amendment amendment, Map<UUID, String> reasons) {
        var admitted = new ArrayList<Admitted>();
        amendment.entered().stream()
                .sorted(Comparator.comparing(one -> one.run().takenAt()))
                .forEach(one -> {
                    var subject = subjects.of(one.preset(), one.run(), one.readings());
                    var outcome = verdicts.outcome(subject, reasons.get(one.insteadOf()));
                    if (outcome.becomes()) {
                        baselines.begin(one.run(), outcome.reason(), amendment.by());
                    }
                    admitted.add(new Admitted(subject, outcome));
                });
        return admitted;
    }

    /** What rested on the mistake stands no longer and holds no alert; what it closed is open again. */
    private List<AlertNotice> forget(Amendment amendment, Set<UUID> concerned) {
        var gone = ids(amendment.withdrawn());
        Predicate<Finding> rests = finding -> rests(finding, gone, amendment.matches());
        findings.stepDown(concerned, rests);
        var subjects = new LinkedHashSet<>(concerned);
        presets.findAll(concerned).values().stream()
                .flatMap(preset -> Stream.ofNullable(preset.roomId()))
                .forEach(subjects::add);
        return alerts.forget(
                subjects,
                rests,
                finding ->
                        finding.presetId() + " " + Judged.slot(finding.metric().toString(), finding.matchId()),
                runs.alertsClosedBy(
                        gone,
                        runs.latestOf(concerned).stream()
                                .map(StoredRun::presetId)
                                .toList()),
                "What closed it was withdrawn: " + amendment.why(),
                amendment.by());
    }

    private static boolean rests(Finding finding, Set<UUID> runs, Set<UUID> matches) {
        var run = finding.runId();
        var match = finding.matchId();
        return run != null && runs.contains(run)
                || match != null && matches.contains(match)
                || finding.readings().stream().anyMatch(reading -> runs.contains(reading.runId()));
    }

    /** Judges the presets in use. */
    private Map<UUID, Assessor.Stood> standAnew(Set<UUID> touched, Map<UUID, PresetFacts> facts) {
        var latest = runs.latestOf(touched).stream().collect(Collectors.toMap(StoredRun::presetId, run -> run));
        var inUse = touched.stream()
                .map(facts::get)
                .filter(preset -> preset != null && !preset.retired())
                .toList();
        return assessor.standAnew(inUse, latest).stream()
                .collect(Collectors.toMap(
                        one -> one.subject().preset().presetId(), one -> one, (a, b) -> a, LinkedHashMap::new));
    }

    /** A meter that was last used for a run that counts no longer is judged by its last use before. */
    private List<AlertNotice> reportMeters(Amendment amendment) {
        var notices = new ArrayList<AlertNotice>();
        amendment.withdrawn().stream()
                .collect(Collectors.toMap(
                        StoredRun::instrumentId,
                        StoredRun::takenAt,
                        (one, other) -> one.isAfter(other) ? one : other,
                        LinkedHashMap::new))
                .forEach((instrument, taken) -> {
                    var last = runs.lastOfInstrument(instrument);
                    if (last.isEmpty()) {
                        alerts.closeAllAbout(instrument, "No run that counts was taken with it.", amendment.by());
                    } else if (last.get().takenAt().isBefore(taken)) {
                        notices.addAll(reportMeter(last.get(), amendment.by()));
                    }
                });
        return notices;
    }

    private List<AlertNotice> reportMeter(StoredRun last, String by) {
        var subject = subjects.of(presets.find(last.presetId()).orElseThrow(), last);
        var figure = TimeFigures.certificate(subject.run().instrument(), last);
        return causes.reportMeter(subject, rules.judge(List.of(figure), subject.preset(), last.id()), by);
    }

    private RunVerdict verdict(
            Admitted admitted, Map<UUID, Assessor.Stood> stood, List<AlertNotice> notices, String by) {
        var subject = admitted.subject();
        var now = stood.get(subject.preset().presetId());
        var shown = now != null && now.subject().run().id().equals(subject.run().id())
                ? now.all()
                : assessor.judgeLate(subject, by).findings();
        return verdicts.verdict(subject, admitted.outcome(), new Assessor.Assessment(shown, List.copyOf(notices)));
    }

    private List<JudgedAnew> judgedAnew(Set<UUID> touched, Map<UUID, PresetFacts> facts) {
        var standing = findings.standing(touched);
        return touched.stream()
                .map(facts::get)
                .filter(preset -> preset != null && !preset.retired())
                .map(preset -> judgedAnew(preset, standing))
                .toList();
    }

    private JudgedAnew judgedAnew(PresetFacts preset, List<Judged> standing) {
        var baseline = baselines.inForce(preset.presetId());
        var latest = runs.latestOf(List.of(preset.presetId())).stream().findFirst();
        return new JudgedAnew(
                preset.presetId(),
                preset.path(),
                baseline.map(Baseline::runId).orElse(null),
                baseline.map(Baseline::from).orElse(null),
                latest.map(StoredRun::id).orElse(null),
                standing.stream()
                        .filter(judged -> judged.finding().presetId().equals(preset.presetId()) && judged.counts())
                        .map(judged -> judged.finding().decision())
                        .max(Comparator.naturalOrder())
                        .orElse(Decision.WITHIN));
    }

    private static Set<UUID> ids(Collection<StoredRun> all) {
        return all.stream().map(StoredRun::id).collect(Collectors.toSet());
    }
}
