package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptStep;
import panelbook.cli.match.KeptStory;
import panelbook.cli.match.StepText;
import panelbook.wire.ClickEffect;
import panelbook.wire.Condition;
import panelbook.wire.EffectFigure;
import panelbook.wire.ExpectedRest;
import panelbook.wire.GuardDecision;
import panelbook.wire.GuardReport;
import panelbook.wire.Holds;
import panelbook.wire.MatchStory;
import panelbook.wire.Restoration;
import panelbook.wire.Trim;
import panelbook.wire.TrimChange;
import panelbook.wire.TrimSuggestion;

/** What a match under way looks like in lines. */
final class MatchText {

    private MatchText() {}

    /**
     * A step as it is shown once it is taken down.
     *
     * @param step in words
     * @param sent whether the service has it
     * @param settings how the controls stand after it
     */
    record StepShown(
            int number, String step, boolean sent, List<Trim> settings, List<String> advice, List<GuardReport> guards) {

        List<String> lines() {
            var lines = new ArrayList<String>();
            lines.add(number + "  " + step + "   (controls: " + StepText.settings(settings) + ")"
                    + (sent ? "" : "   not sent yet"));
            advice.forEach(text -> lines.add("   " + text));
            guards.stream().map(MatchText::guard).forEach(text -> lines.add("   " + text));
            return lines;
        }
    }

    /** What a guard says, and what can be done. */
    static String guard(GuardReport guard) {
        var control = StepText.control(guard.control(), guard.level());
        var readings = figures(guard);
        return switch (guard.decision()) {
            case PASSED -> "Guard: " + control + " passed. " + guard.explanation() + readings;
            case UNDECIDED -> "Guard: " + control + " is undecided. " + guard.explanation() + readings;
            case REFUSED ->
                "Guard: " + control + " is REFUSED. " + guard.explanation() + readings
                        + " Go back (back), or let it stand: keep " + control + " because REASON";
            case OVERRIDDEN ->
                "Guard: " + control + " was refused and stands, because " + guard.reason() + "." + readings;
        };
    }

    private static String figures(GuardReport guard) {
        var before = guard.before();
        var after = guard.after();
        return before == null || after == null
                ? ""
                : " Before " + figure(before, guard.unit()) + ", after " + figure(after, guard.unit()) + "."
                        + readWith(guard.corrections());
    }

    /** Journals kept before guards named corrections have none. */
    private static String readWith(@Nullable List<String> corrections) {
        return corrections == null || corrections.isEmpty()
                ? ""
                : " Read with " + String.join(" and ", corrections) + ".";
    }

    private static String figure(double value, @Nullable String unit) {
        return Words.number(Verdicts.rounded(value)) + (unit == null || unit.isEmpty() ? "" : " " + unit);
    }

    /** Conditions of an opening, what does not hold first. */
    static List<String> conditions(List<Condition> conditions) {
        var lines = new ArrayList<String>();
        for (var holds : List.of(Holds.NO, Holds.UNKNOWN)) {
            conditions.stream()
                    .filter(c -> c.holds() == holds)
                    .forEach(c -> lines.add((holds == Holds.NO ? "not met" : "unknown") + "  "
                            + String.valueOf(c.requirement()).replace('-', ' ') + ": " + c.explanation()));
        }
        var met = conditions.stream()
                .filter(c -> c.holds() == Holds.YES)
                .map(c -> String.valueOf(c.requirement()).replace('-', ' '))
                .toList();
        if (!met.isEmpty()) {
            lines.add("met  " + String.join(", ", met));
        }
        return lines;
    }

    /** One step in a table. */
    record Row(
            int number,
            String step,
            String controls,
            String state,
            @Nullable String by) {}

    static View<Row> rows() {
        return View.of(
                Row.class,
                List.of(
                        of("NO", Row::number),
                        of("STEP", Row::step),
                        of("CONTROLS AFTER", Row::controls),
                        of("STATE", Row::state)));
    }

    /** The story, a row per step, the opening first as step 0. */
    static List<Row> rows(KeptStory story, List<GuardReport> guards) {
        var rows = new ArrayList<Row>();
        rows.add(new Row(
                0,
                "opened for " + story.opened().draft().operator(),
                StepText.settings(story.settingsAfter(0)),
                story.openingStored() ? "" : "not sent",
                null));
        for (var step : story.steps()) {
            rows.add(new Row(
                    step.number(),
                    step.words(),
                    StepText.settings(story.settingsAfter(step.number())),
                    state(story, step, guards),
                    step.text()));
        }
        return rows;
    }

    private static String state(KeptStory story, KeptStep step, List<GuardReport> guards) {
        var states = new ArrayList<String>();
        if (step.fate() == KeptStep.Fate.UNSENT) {
            states.add("not sent");
        }
        if (story.undone(step.number())) {
            states.add("undone");
        }
        guards.stream()
                .filter(g -> g.step() == step.number() && g.decision() != GuardDecision.PASSED)
                .forEach(g -> states.add(StepText.control(g.control(), g.level()) + " " + g.decision()));
        return String.join(", ", states);
    }

    /** A control to be turned. */
    static View<TrimChange> changes() {
        return View.of(
                TrimChange.class,
                List.of(
                        of("CONTROL", c -> StepText.control(c.control(), c.level())),
                        of("FROM", c -> StepText.clicks(c.from())),
                        of("TO", c -> StepText.clicks(c.to())),
                        of("TURN BY", c -> c.clicks() == 0 ? "leave" : StepText.clicks(c.clicks()))));
    }

    /** What stands around the changes of a restoration. */
    static List<String> restoration(Restoration restoration) {
        return List.of(
                "To: " + restoration.state(),
                "From: " + restoration.from() + ". Check that the display stands there before you turn anything.");
    }

    /** What stands below the changes of a suggestion. */
    static List<String> below(TrimSuggestion suggestion) {
        var lines = new ArrayList<String>();
        lines.add("Aim: " + suggestion.aim());
        if (!suggestion.corrections().isEmpty()) {
            lines.add("Read with: " + String.join("; ", suggestion.corrections()));
        }
        rests(suggestion.rest()).forEach(rest -> lines.add("Expected rest, " + rest(rest)));
        suggestion.whyNotMore().forEach(why -> lines.add("Why not more: " + why.explanation()));
        if (!suggestion.effectUnknown().isEmpty()) {
            lines.add(
                    "Left out, since no step tells what a click does: " + String.join(", ", suggestion.effectUnknown())
                            + ". A reading before and after one trim of each teaches it.");
        }
        return lines;
    }

    /** White, and the greys furthest off in colour and in luminance: all of them are in the JSON. */
    private static List<ExpectedRest> rests(List<ExpectedRest> all) {
        var telling = new LinkedHashSet<ExpectedRest>();
        all.stream().max(Comparator.comparingInt(ExpectedRest::grey)).ifPresent(telling::add);
        all.stream()
                .max(Comparator.comparingDouble(rest -> Math.hypot(rest.du(), rest.dv())))
                .ifPresent(telling::add);
        all.stream()
                .max(Comparator.comparingDouble(rest -> Math.abs(rest.luminancePercent())))
                .ifPresent(telling::add);
        return List.copyOf(telling);
    }

    private static String rest(ExpectedRest rest) {
        return String.format(
                Locale.ROOT,
                "%d %% grey: Δu′ %+.4f, Δv′ %+.4f (± %.4f), luminance %+.1f %% (± %.1f)",
                rest.grey(),
                rest.du(),
                rest.dv(),
                rest.chromaticityUncertainty(),
                rest.luminancePercent(),
                rest.luminanceUncertaintyPercent());
    }

    static View<ClickEffect> effects() {
        return View.of(
                ClickEffect.class,
                List.of(
                        of("CONTROL", e -> StepText.control(e.control(), e.level())),
                        of("GREY %", ClickEffect::grey),
                        of("FIGURE", e -> figure(e.figure())),
                        of("PER CLICK", e -> effect(e.perClick())),
                        of("FROM", e -> effect(e.lower())),
                        of("TO", e -> effect(e.upper())),
                        of("OWN TRIALS", ClickEffect::ownTrials),
                        of("OTHER DISPLAYS", ClickEffect::otherDisplays)));
    }

    private static String figure(EffectFigure figure) {
        return switch (figure) {
            case U -> "u′";
            case V -> "v′";
            case LN_LUMINANCE -> "ln luminance";
        };
    }

    private static String effect(double value) {
        return String.format(Locale.ROOT, "%+.5f", value);
    }

    /** Fields of a story, but for what is listed below them. */
    static List<panelbook.cli.terminal.Column<MatchStory>> storyFields() {
        return List.of(
                of("FOLLOWER", MatchStory::follower),
                of("HERO", MatchStory::hero),
                of("TARGET", MatchStory::target),
                of("OPERATOR", MatchStory::operator),
                of("METER", MatchStory::instrument),
                of("OPENED", MatchStory::openedAt),
                of("BY", MatchStory::recordedBy),
                of("STATE", MatchStory::state),
                of("GIVEN UP BECAUSE", MatchStory::endedBecause),
                of("SIGN-OFF", s -> s.signOff() == null ? null : s.signOff().id()),
                of("CONTROLS", s -> StepText.settings(s.settings())),
                of("ID", MatchStory::id));
    }

    static View<MatchStory> stories() {
        return View.of(
                MatchStory.class,
                List.of(
                        of("FOLLOWER", MatchStory::follower),
                        of("HERO", MatchStory::hero),
                        of("OPERATOR", MatchStory::operator),
                        of("OPENED", MatchStory::openedAt),
                        of("STATE", MatchStory::state),
                        of("STEPS", s -> s.steps().size()),
                        of("ID", MatchStory::id)));
    }
}
