package panelbook.app.assessment;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.matching.MatchSigned;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunJudge;
import panelbook.app.runs.StoredRun;
import panelbook.app.signalpath.Diagnoses;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.BaselineDraft;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.Purpose;
import panelbook.wire.Rule;
import panelbook.wire.RunVerdict;

/** What happens when something new comes to be judged: a run, a declared baseline, a signed match. */
@Service
class Verdicts implements RunJudge {

    private final Assessor assessor;
    private final Baselines baselines;
    private final PresetFactsBook presets;
    private final RunBook runs;
    private final Subjects subjects;
    private final Diagnoses diagnoses;

    Verdicts(
            Assessor assessor,
            Baselines baselines,
            PresetFactsBook presets,
            RunBook runs,
            Subjects subjects,
            Diagnoses diagnoses) {
        this.diagnoses = diagnoses;
        this.assessor = assessor;
        this.baselines = baselines;
        this.presets = presets;
        this.runs = runs;
        this.subjects = subjects;
    }

    @Override
    @Transactional(propagation = Propagation.MANDATORY)
    public RunVerdict judge(StoredRun run, PresetFacts preset, List<Reading> all, @Nullable String baselineReason) {
        assessor.lockRoomsOf(List.of(preset));
        var subject = subjects.of(preset, run, all);
        var outcome = outcome(subject, baselineReason);
        if (outcome.becomes()) {
            baselines.begin(run, outcome.reason(), by());
        }
        return verdict(subject, outcome);
    }

    /**
     * A calibrator says that a run is to be the baseline although it did not become it by itself.
     *
     * @throws Refusal when the run is not an as-left run of the preset, was taken cold or withdrawn, or is a baseline already
     */
    @Transactional
    public RunVerdict declare(UUID presetId, BaselineDraft draft) {
        var preset = presets.find(presetId).orElseThrow(() -> Refusal.notFound("preset", presetId));
        new Checks()
                .that(!draft.reason().isBlank(), "/reason", "Must not be empty: say why it is to be the baseline.")
                .text("/reason", draft.reason(), 10_000)
                .refuse();
        assessor.lockRoomsOf(List.of(preset));
        var run = runs.find(draft.runId())
                .filter(found -> found.presetId().equals(presetId))
                .orElseThrow(() -> Refusal.invalid("/runId", "there is no such run on " + preset.path()));
        if (runs.isWithdrawn(run.id())) {
            throw Refusal.conflict("This run was withdrawn and counts no longer: declare one that does.");
        }
        var obstacle = obstacle(run);
        if (obstacle != null) {
            throw Refusal.conflict(obstacle);
        }
        if (baselines.isBaseline(run.id())) {
            throw Refusal.conflict("This run is or was the baseline already.");
        }
        baselines.begin(run, draft.reason(), by());
        var subject = subjects.of(preset, run);
        return verdict(subject, new Outcome(true, draft.reason(), "It became the baseline: " + draft.reason()));
    }

    /** A new sign-off ends the residual of the one before: the follower is judged by the new agreement. */
    @org.springframework.context.event.EventListener
    void onMatchSigned(MatchSigned signed) {
        judgeLatestOf(List.of(signed.followerPresetId(), signed.heroPresetId()));
    }

    /** Judges presets anew in this order, each by its latest run if it has one; those out of use are left as they are. */
    @Transactional
    public void judgeLatestOf(Collection<UUID> presetIds) {
        var facts = presets.findAll(presetIds);
        assessor.lockRoomsOf(facts.values());
        presetIds.stream()
                .distinct()
                .map(facts::get)
                .filter(preset -> preset != null && !preset.retired())
                .forEach(this::judgeLatestOf);
    }

    private void judgeLatestOf(PresetFacts preset) {
        runs.latestOf(List.of(preset.presetId())).stream()
                .findFirst()
                .ifPresent(run -> assessor.judgeStanding(subjects.of(preset, run), by()));
    }

    private RunVerdict verdict(Subject subject, Outcome outcome) {
        var run = subject.run().run();
        if (outcome.becomes()) {
            assessor.judgeQuestionsOfFollowers(Set.of(run.presetId()));
        }
        var latest = runs.latestOf(List.of(run.presetId())).stream().findFirst();
        if (latest.isPresent()
                && latest.get().id().equals(run.id())
                && !subject.preset().retired()) {
            return verdict(subject, outcome, assessor.judgeStanding(subject, by()));
        }
        var late = assessor.judgeLate(subject, by());
        if (latest.isEmpty() || !outcome.becomes() || subject.preset().retired()) {
            return verdict(subject, outcome, late);
        }
        // what came after it is to be judged by the baseline that it became
        var standing = assessor.judgeStanding(subjects.of(subject.preset(), latest.get()), by());
        return verdict(subject, outcome, new Assessor.Assessment(late.findings(), standing.alerts()));
    }

    RunVerdict verdict(Subject subject, Outcome outcome, Assessor.Assessment assessment) {
        var run = subject.run().run();
        var findings = assessment.findings().stream()
                .map(Judged::finding)
                .sorted(Comparator.comparing(Finding::decision).reversed())
                .toList();
        var worst = assessment.findings().stream()
                .filter(Judged::counts)
                .map(judged -> judged.finding().decision())
                .max(Comparator.naturalOrder())
                .orElse(Decision.WITHIN);
        return new RunVerdict(
                run.id(),
                subject.preset().path(),
                run.purpose(),
                worst,
                run.warmedUp(),
                outcome.becomes(),
                outcome.note(),
                findings,
                assessment.alerts(),
                run.readingCount(),
                diagnoses.quickly(subject.preset(), subject.run()).orElse(null));
    }

    /**
     * Whether a run becomes the baseline.
     *
     * @param reason given by a person, else null
     * @param note why or why not, for people
     */
    record Outcome(boolean becomes, @Nullable String reason, String note) {

        static Outcome no(String note) {
            return new Outcome(false, null, note);
        }
    }

    /** Needs no baseline of its own: asks only whether the run verifies. */
    Outcome outcome(Subject subject, @Nullable String baselineReason) {
        var run = subject.run().run();
        if (run.purpose() != Purpose.AS_LEFT) {
            if (baselineReason != null) {
                throw Refusal.invalid("/baselineReason", "only an as-left run can become the baseline");
            }
            return Outcome.no("Only an as-left run becomes the baseline."
                    + (Boolean.FALSE.equals(run.warmedUp())
                            ? " Taken before the display had warmed up, it neither opens nor closes an alert."
                            : ""));
        }
        var obstacle = obstacle(run);
        if (obstacle != null) {
            return Outcome.no(obstacle);
        }
        if (baselineReason != null) {
            return new Outcome(true, baselineReason, "It became the baseline: " + baselineReason);
        }
        if (subject.run().readings().white().isEmpty()) {
            return Outcome.no(
                    "It did not become the baseline: it holds no reading of white, so that no drift of peak or"
                            + " colour could be told from it. Measure white, or declare it with a reason.");
        }
        return byVerification(assessor.verify(subject));
    }

    private static Outcome byVerification(List<Judged> verification) {
        var beyond = metrics(verification, Decision.BEYOND);
        if (!beyond.isEmpty()) {
            return Outcome.no("It did not become the baseline, since it does not verify: " + beyond
                    + ". Calibrate again, or declare it with a reason.");
        }
        if (verification.isEmpty()) {
            return Outcome.no("It did not become the baseline: it holds no patch that its tolerance set judges.");
        }
        var undecided = metrics(verification, Decision.UNDECIDED);
        return new Outcome(
                true,
                null,
                undecided.isEmpty()
                        ? "It verifies and became the baseline."
                        : "Nothing is beyond its limit and it became the baseline; too close for the meter to tell: "
                                + undecided + ".");
    }

    private static String metrics(List<Judged> judged, Decision decision) {
        return judged.stream()
                .filter(j ->
                        j.finding().rule() == Rule.VERIFICATION && j.finding().decision() == decision)
                .map(j -> j.finding().metric().toString())
                .collect(Collectors.joining(", "));
    }

    /** Why a run can't be a baseline whoever asks; null when it can. */
    private @Nullable String obstacle(StoredRun run) {
        if (run.purpose() != Purpose.AS_LEFT) {
            return "Only an as-left run can become the baseline; the purpose of this one is " + run.purpose() + ".";
        }
        if (Boolean.FALSE.equals(run.warmedUp())) {
            return "It cannot become the baseline, since it was taken before the display had warmed up.";
        }
        if (!baselines.isBaseline(run.id()) && baselines.startsAt(run)) {
            return "It cannot become the baseline, since another one starts at the same instant.";
        }
        return null;
    }

    private static String by() {
        return Caller.find().map(Caller::holder).orElse("service");
    }
}
