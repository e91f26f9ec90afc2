package panelbook.app.matching.story;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.app.matching.story.Story.Taken;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.trim.Channel;
import panelbook.colorimetry.trim.Control;
import panelbook.colorimetry.trim.ControlRange.Kind;
import panelbook.colorimetry.trim.TrimGuards;
import panelbook.colorimetry.trim.Verdict;
import panelbook.wire.GuardDecision;
import panelbook.wire.GuardReport;
import panelbook.wire.ReadingRef;

/**
 * What the guards say of the readings of a story. A refusal stands until its control is set back, until a later reading at
 * that setting or beyond passes, or until a person overrides it; an override covers the setting that it was given at, not
 * what is turned further later.
 */
public final class Guards {

    private static final String PERCENT = "%";
    private static final String LUMINANCE = "cd/m²";

    private final Story story;
    private final Function<UUID, MeasuredRun> runs;
    private final Function<UUID, List<String>> corrections;
    private final @Nullable UUID calibratedRunId;
    private final double blackTolerance;
    private final List<Said> said;

    private Guards(
            Story story,
            Function<UUID, MeasuredRun> runs,
            Function<UUID, List<String>> corrections,
            @Nullable UUID calibratedRunId,
            double blackTolerance) {
        this.story = story;
        this.runs = runs;
        this.corrections = corrections;
        this.calibratedRunId = calibratedRunId;
        this.blackTolerance = blackTolerance;
        this.said = new ArrayList<>();
    }

    /**
     * The guards of a story.
     *
     * @param runs whole runs of the follower, by id
     * @param corrections names of those that a run is read with
     * @param calibratedRunId run of the follower's baseline; null when it has none
     * @param blackTolerance how far black may rise, cd/m²
     */
    public static Guards of(
            Story story,
            Function<UUID, MeasuredRun> runs,
            Function<UUID, List<String>> corrections,
            @Nullable UUID calibratedRunId,
            double blackTolerance) {
        var guards = new Guards(story, runs, corrections, calibratedRunId, blackTolerance);
        var earlier = new ArrayList<Taken>();
        for (var taken : story.followerReadings()) {
            guards.look(taken, earlier);
            earlier.add(taken);
        }
        return guards;
    }

    /** Whether any reading of a story is for the guards to look at. */
    public static boolean concern(Story story) {
        return story.followerReadings().stream()
                .anyMatch(taken -> taken.settings().controls().stream()
                        .anyMatch(control -> isGuarded(control, taken.settings().of(control))));
    }

    /** A gain that is not raised cannot clip what did not clip as calibrated. */
    private static boolean isGuarded(Control control, int setting) {
        var kind = Controls.kind(control);
        return kind == Kind.BLACK_LEVEL || (kind == Kind.GAIN && setting > 0);
    }

    /** What was said of a control at a setting, before anybody overrode it. */
    private record Said(Control control, int setting, GuardReport report) {

        /** Whether another setting of the control is at least as far from calibrated, to the same side. */
        boolean isReachedBy(int other) {
            return setting > 0 ? other >= setting : other <= setting;
        }
    }

    /** What is said of the readings of a step: overridden ones are marked so. */
    public List<GuardReport> of(int step) {
        return said.stream()
                .filter(one -> one.report().step() == step)
                .map(this::marked)
                .toList();
    }

    /** What refuses, cannot decide or was overridden as the controls stand, by control. */
    public List<GuardReport> standing() {
        var byControl = new TreeMap<Control, GuardReport>();
        for (var one : said) {
            if (stands(one)) {
                byControl.merge(one.control(), marked(one), Guards::graver);
            }
        }
        return List.copyOf(byControl.values());
    }

    /** What refuses as the controls stand. */
    public List<GuardReport> refusing() {
        return standing().stream()
                .filter(report -> report.decision() == GuardDecision.REFUSED)
                .toList();
    }

    private static GuardReport graver(GuardReport first, GuardReport second) {
        return second.decision() == GuardDecision.REFUSED || first.decision() != GuardDecision.REFUSED ? second : first;
    }

    private boolean stands(Said one) {
        if (one.report().decision() == GuardDecision.PASSED
                || !one.isReachedBy(story.now().of(one.control()))) {
            return false;
        }
        return said.stream()
                .filter(other -> other.control().equals(one.control()))
                .filter(other -> other.report().step() > one.report().step() && one.isReachedBy(other.setting()))
                .noneMatch(
                        other -> settles(one.report().decision(), other.report().decision()));
    }

    /** A later reading at that setting or beyond settles what could not be decided, and takes a refusal back when it passes. */
    private static boolean settles(GuardDecision earlier, GuardDecision later) {
        return later == GuardDecision.PASSED || (earlier == GuardDecision.UNDECIDED && later == GuardDecision.REFUSED);
    }

    private GuardReport marked(Said one) {
        var report = one.report();
        if (report.decision() != GuardDecision.REFUSED) {
            return report;
        }
        return override(one)
                .map(reason -> new GuardReport(
                        report.control(),
                        report.level(),
                        report.step(),
                        GuardDecision.OVERRIDDEN,
                        report.explanation(),
                        report.before(),
                        report.after(),
                        report.unit(),
                        report.readings(),
                        report.corrections(),
                        reason))
                .orElse(report);
    }

    /** The reason of an override that covers a refusal: given after the first refusal, at its setting or beyond. */
    private Optional<String> override(Said refused) {
        var inForce = story.inForce();
        return story.steps().stream()
                .filter(step -> refused.control().equals(step.overridden()) && inForce.contains(step.number()))
                .filter(step -> refused.isReachedBy(story.after(step.number()).of(refused.control())))
                .filter(step -> said.stream()
                        .anyMatch(one -> one.control().equals(refused.control())
                                && one.report().decision() == GuardDecision.REFUSED
                                && one.report().step() < step.number()))
                .map(step -> step.said().note())
                .filter(note -> note != null)
                .map(String::valueOf)
                .reduce((first, last) -> last);
    }

    private void look(Taken taken, List<Taken> earlier) {
        for (var control : taken.settings().controls()) {
            var setting = taken.settings().of(control);
            if (isGuarded(control, setting)) {
                var report = Controls.kind(control) == Kind.GAIN
                        ? gain(control, taken, earlier)
                        : blackLevel(control, taken);
                said.add(new Said(control, setting, report));
            }
        }
    }

    private GuardReport gain(Control control, Taken taken, List<Taken> earlier) {
        var before = earlier.stream()
                .filter(then -> then.settings().of(control) < taken.settings().of(control))
                .reduce((first, last) -> last)
                .map(Taken::runId)
                .orElse(calibratedRunId);
        if (before == null) {
            return undecided(
                    control,
                    taken,
                    "There is no reading with " + control + " lower to hold this one against: read "
                            + "the ramp once with it set back.",
                    List.of());
        }
        return Controls.channels(control).stream()
                .map(channel -> gain(control, channel, taken, before))
                .min(Comparator.comparing((GuardReport report) -> report.decision() == GuardDecision.REFUSED
                        ? 0
                        : report.decision() == GuardDecision.UNDECIDED ? 1 : 2))
                .orElseThrow();
    }

    private GuardReport gain(Control control, Channel channel, Taken taken, UUID before) {
        var verdict = TrimGuards.gain(channel, runs.apply(before), runs.apply(taken.runId()));
        if (verdict instanceof Verdict.Refused refused) {
            var rose = percent(refused.limit() / TrimGuards.LEAST_RISE_KEPT);
            var rises = percent(refused.figure().value());
            return new GuardReport(
                    control.name(),
                    Controls.level(control),
                    taken.step(),
                    GuardDecision.REFUSED,
                    String.format(
                            Locale.ROOT,
                            "%s clips: over the top of its ramp, from %s to %s, its light rises by %.2f %% and rose by"
                                    + " %.2f %% before %s was raised.",
                            upperFirst(Controls.word(channel)),
                            refused.first().patch(),
                            refused.second().patch(),
                            rises,
                            rose,
                            control),
                    rose,
                    rises,
                    PERCENT,
                    List.of(ref(taken.runId(), refused.first()), ref(taken.runId(), refused.second())),
                    correctionsOf(before, taken.runId()),
                    null);
        }
        return verdict instanceof Verdict.Allowed
                ? plain(
                        control,
                        taken,
                        GuardDecision.PASSED,
                        upperFirst(Controls.word(channel)) + " still rises over the top of its ramp.",
                        PERCENT,
                        correctionsOf(before, taken.runId()))
                : undecided(control, taken, missing(verdict, control), correctionsOf(before, taken.runId()));
    }

    private GuardReport blackLevel(Control control, Taken taken) {
        if (calibratedRunId == null) {
            return undecided(control, taken, "The follower has no baseline to hold black against.", List.of());
        }
        var calibrated = runs.apply(calibratedRunId);
        var now = runs.apply(taken.runId());
        var verdict = TrimGuards.blackLevel(calibrated, now, blackTolerance);
        var read = correctionsOf(calibratedRunId, taken.runId());
        if (verdict instanceof Verdict.NotMeasured) {
            return undecided(control, taken, missing(verdict, control), read);
        }
        var decision = verdict instanceof Verdict.Refused
                ? GuardDecision.REFUSED
                : verdict instanceof Verdict.Undecided ? GuardDecision.UNDECIDED : GuardDecision.PASSED;
        var first = calibrated.readings().black().orElseThrow();
        var second = now.readings().black().orElseThrow();
        return new GuardReport(
                control.name(),
                Controls.level(control),
                taken.step(),
                decision,
                blackInWords(decision, first.luminance(), second.luminance()),
                first.luminance(),
                second.luminance(),
                LUMINANCE,
                List.of(ref(calibratedRunId, first), ref(taken.runId(), second)),
                read,
                null);
    }

    private List<String> correctionsOf(UUID before, UUID after) {
        return Stream.of(before, after)
                .flatMap(run -> corrections.apply(run).stream())
                .distinct()
                .toList();
    }

    private String blackInWords(GuardDecision decision, double calibrated, double now) {
        var figures = String.format(
                Locale.ROOT,
                "black reads %.4f cd/m², as calibrated it read %.4f, and it may rise by %.4f",
                now,
                calibrated,
                blackTolerance);
        return switch (decision) {
            case REFUSED -> "The floor is lifted: " + figures + ".";
            case UNDECIDED -> "Too close for the meter to tell, measure again: " + figures + ".";
            default -> upperFirst(figures) + ".";
        };
    }

    private static String missing(Verdict verdict, Control control) {
        if (!(verdict instanceof Verdict.NotMeasured unmeasured)) {
            return "Too close for the meter to tell: measure again.";
        }
        return switch (unmeasured.missing()) {
            case TOP_OF_RAMP ->
                "Nothing tells whether " + control
                        + " clips: measure the upper end of the ramp, two levels and more, with"
                        + " it raised and as calibrated.";
            case BLACK -> "Nothing tells whether the floor is lifted: measure black.";
            case PRIMARIES ->
                "The greys alone do not tell the channels apart: measure red, green and blue alone once, or a ramp of the"
                        + " channel that " + control + " acts on.";
        };
    }

    private static GuardReport undecided(Control control, Taken taken, String explanation, List<String> corrections) {
        return plain(
                control,
                taken,
                GuardDecision.UNDECIDED,
                explanation,
                Controls.kind(control) == Kind.GAIN ? PERCENT : LUMINANCE,
                corrections);
    }

    private static GuardReport plain(
            Control control,
            Taken taken,
            GuardDecision decision,
            String explanation,
            String unit,
            List<String> corrections) {
        return new GuardReport(
                control.name(),
                Controls.level(control),
                taken.step(),
                decision,
                explanation,
                null,
                null,
                unit,
                List.of(),
                corrections,
                null);
    }

    private static double percent(double lnRatio) {
        return 100 * Math.expm1(lnRatio);
    }

    private static ReadingRef ref(UUID runId, Reading reading) {
        var patch = reading.patch();
        return new ReadingRef(runId, patch.red(), patch.green(), patch.blue());
    }

    private static String upperFirst(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
