package panelbook.app.assessment;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import panelbook.app.alerts.CauseReport;
import panelbook.app.alerts.CauseReport.SubjectKind;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.runs.PresetFacts;
import panelbook.wire.AffectedFollower;
import panelbook.wire.AlertCause;
import panelbook.wire.Finding;
import panelbook.wire.Rule;

/**
 * Puts findings to their causes, so that people hear of each cause once. What moved is blamed on the display that moved: a
 * hero that moved is one cause, however many followers are off by it.
 */
final class Causes {

    private Causes() {}

    /**
     * The causes that can lie at a preset, each as it stands.
     *
     * @param preset where the causes would lie
     * @param standing standing findings of the preset and of its followers
     * @param state of the preset's baseline and latest run
     * @param inQuestion followers whose matches the preset puts in question as their hero
     */
    static List<CauseReport> at(
            PresetFacts preset, List<Judged> standing, State state, List<AffectedFollower> inQuestion) {
        var own = standing.stream()
                .filter(judged -> judged.finding().presetId().equals(preset.presetId()))
                .toList();
        return List.of(
                moved(preset, own, standing, state),
                offTarget(preset, of(Rule.VERIFICATION, own), state),
                report(
                        AlertCause.RECALIBRATION_DUE,
                        preset,
                        state.baseline(),
                        of(Rule.RECALIBRATION, own),
                        "Recalibration is due. ",
                        "It was calibrated again.",
                        List.of()),
                report(
                        AlertCause.MATCH_IN_QUESTION,
                        preset,
                        state.baseline(),
                        of(Rule.AGREEMENT, own),
                        "Matches are in question. ",
                        "Every match rests on the baselines in force.",
                        inQuestion));
    }

    /**
     * What the rules have to know of a preset beside its findings.
     *
     * @param judgedByTarget whether its latest run is an as-left run, or it has no baseline: then the target is its measure
     * @param acceptedByPerson whether its latest run is the baseline because a person said so
     * @param leftOffTarget whether its latest run is an as-left run that did not become the baseline: it was moved by whoever
     *     calibrates it
     * @param run the latest run's id, empty when there is none
     * @param baseline the baseline's id, empty when there is none
     */
    record State(boolean judgedByTarget, boolean acceptedByPerson, boolean leftOffTarget, String run, String baseline) {

        static final State UNMEASURED = new State(false, false, false, "", "");
    }

    private static CauseReport moved(PresetFacts preset, List<Judged> own, List<Judged> all, State state) {
        var asFollower = own.stream().filter(Judged::liesAtFollower).toList();
        var asHero = all.stream()
                .filter(judged -> judged.liesAtHero(preset.presetId()))
                .toList();
        var contributing = new ArrayList<>(of(Rule.OWN_DRIFT, own));
        contributing.addAll(asFollower);
        contributing.addAll(asHero);
        var report = report(
                AlertCause.MOVED,
                preset,
                state.run(),
                contributing,
                asHero.stream().anyMatch(Judged::beyond) ? "The hero moved. " : "It moved. ",
                "Nothing shows any longer that it moved.",
                followers(asHero));
        return state.leftOffTarget() ? lingeringOnly(report) : report;
    }

    /** Each follower that a moved hero puts beyond its limit, with the gravest of its figures. */
    private static List<AffectedFollower> followers(List<Judged> asHero) {
        var gravest = new LinkedHashMap<String, Judged>();
        for (var judged : gravestFirst(asHero)) {
            if (judged.beyond()) {
                gravest.putIfAbsent(judged.finding().preset(), judged);
            }
        }
        return gravest.values().stream()
                .map(judged -> new AffectedFollower(
                        judged.finding().presetId(),
                        judged.finding().preset(),
                        judged.finding().explanation()))
                .toList();
    }

    private static CauseReport offTarget(PresetFacts preset, List<Judged> verification, State state) {
        if (state.acceptedByPerson()) {
            return report(
                    AlertCause.OFF_TARGET,
                    preset,
                    state.run(),
                    List.of(),
                    "",
                    "A person accepted it as the baseline.",
                    List.of());
        }
        var report = report(
                AlertCause.OFF_TARGET,
                preset,
                state.run(),
                verification,
                "It does not meet its target. ",
                "It verifies against its target.",
                List.of());
        // a preset with a baseline is judged by that, not by its target
        return state.judgedByTarget() ? report : lingeringOnly(report);
    }

    /** The same, but nothing in it opens an alert; it only keeps one open. */
    private static CauseReport lingeringOnly(CauseReport report) {
        var lingering = new java.util.HashSet<>(report.lingering());
        lingering.addAll(report.findings().keySet());
        return new CauseReport(
                report.cause(),
                report.subjectKind(),
                report.subjectId(),
                report.subject(),
                report.facilityId(),
                report.roomId(),
                report.headline(),
                report.followers(),
                report.evidence(),
                Map.of(),
                lingering);
    }

    /** Whether an instrument's certificate had expired when it was used last. */
    static CauseReport certificate(InstrumentFacts instrument, LocalDate day, Judged judged) {
        Map<String, Finding> findings =
                judged.beyond() ? Map.of(judged.finding().metric().toString(), judged.finding()) : Map.of();
        return new CauseReport(
                AlertCause.CERTIFICATE_EXPIRED,
                SubjectKind.INSTRUMENT,
                instrument.id(),
                instrument.name(),
                null,
                null,
                judged.beyond()
                        ? judged.finding().explanation()
                        : instrument.name() + " was used with a certificate that holds.",
                List.of(),
                "certificate until "
                        + instrument
                                .certifiedUntil(day)
                                .map(LocalDate::toString)
                                .orElse("never"),
                findings,
                Set.of());
    }

    private static CauseReport report(
            AlertCause cause,
            PresetFacts preset,
            String evidence,
            List<Judged> contributing,
            String opening,
            String gone,
            List<AffectedFollower> followers) {
        var beyond = new LinkedHashMap<String, Finding>();
        gravestFirst(contributing).stream()
                .filter(Judged::beyond)
                .forEach(judged -> beyond.put(judged.place(), judged.finding()));
        var lingering = contributing.stream()
                .filter(judged -> !judged.clear())
                .map(Judged::place)
                .collect(Collectors.toSet());
        return new CauseReport(
                cause,
                SubjectKind.PRESET,
                preset.presetId(),
                preset.path(),
                preset.facilityId(),
                preset.roomId(),
                headline(preset, beyond, opening, gone, names(cause, followers)),
                followers,
                evidence,
                beyond,
                lingering);
    }

    private static String headline(
            PresetFacts preset, Map<String, Finding> beyond, String opening, String gone, String names) {
        if (beyond.isEmpty()) {
            return gone;
        }
        var gravest = tellsMost(preset, beyond);
        return opening + gravest.explanation() + " Limit " + Say.short3(gravest.limit()) + " " + gravest.unit() + "."
                + names;
    }

    private static String names(AlertCause cause, List<AffectedFollower> followers) {
        if (followers.isEmpty()) {
            return "";
        }
        return (cause == AlertCause.MOVED ? " Followers off by it: " : " Followers: ")
                + followers.stream().map(AffectedFollower::preset).collect(Collectors.joining(", ")) + ".";
    }

    /** What the preset itself did says more of it than what another is off by; of each kind the gravest. */
    private static Finding tellsMost(PresetFacts preset, Map<String, Finding> beyond) {
        return beyond.values().stream()
                .filter(finding -> finding.presetId().equals(preset.presetId()))
                .findFirst()
                .orElseGet(() -> beyond.values().iterator().next());
    }

    private static List<Judged> of(Rule rule, List<Judged> judged) {
        return judged.stream().filter(j -> j.finding().rule() == rule).toList();
    }

    private static List<Judged> gravestFirst(List<Judged> judged) {
        return judged.stream()
                .sorted(Comparator.comparingDouble(Judged::gravity).reversed())
                .toList();
    }
}
