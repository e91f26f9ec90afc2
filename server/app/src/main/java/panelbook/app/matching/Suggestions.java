package panelbook.app.matching;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.matching.Standing.Halves;
import panelbook.app.matching.story.Controls;
import panelbook.app.matching.story.Settings;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.trim.ClickEffects;
import panelbook.colorimetry.trim.Control;
import panelbook.colorimetry.trim.ControlRange;
import panelbook.colorimetry.trim.Figure;
import panelbook.colorimetry.trim.Floor;
import panelbook.colorimetry.trim.GreyLevel;
import panelbook.colorimetry.trim.Tolerances;
import panelbook.colorimetry.trim.TrimSuggester;
import panelbook.colorimetry.trim.TrimSuggestion.Reason;
import panelbook.colorimetry.trim.Wanted;
import panelbook.colorimetry.verification.Verification;
import panelbook.wire.ExpectedRest;
import panelbook.wire.NotMore;
import panelbook.wire.TrimChange;
import panelbook.wire.TrimSuggestion;
import panelbook.wire.WhyNotMore;

/** Suggests the clicks that bring a follower nearest to its hero and the offset that its operator is expected to accept. */
@Component
class Suggestions {

    /** How far a control is taken to go either way when nobody stated it, in clicks. House rule, no published source. */
    static final int USUAL_RANGE = 10;

    private final Pairs pairs;
    private final Standing standing;
    private final ClickBook clicks;
    private final ControlRanges ranges;
    private final Aims aims;
    private final CalibratedBook calibrated;
    private final MeasuredRuns runs;

    Suggestions(
            Pairs pairs,
            Standing standing,
            ClickBook clicks,
            ControlRanges ranges,
            Aims aims,
            CalibratedBook calibrated,
            MeasuredRuns runs) {
        this.pairs = pairs;
        this.standing = standing;
        this.clicks = clicks;
        this.ranges = ranges;
        this.aims = aims;
        this.calibrated = calibrated;
        this.runs = runs;
    }

    /**
     * Suggests clicks.
     *
     * @param storyId match under way, whose readings and settings count; null outside one
     * @throws Refusal when the two are not a follower and its hero, or with what is missing when there are no readings of
     *     both or nothing is known of clicks
     */
    @Transactional(readOnly = true)
    TrimSuggestion suggest(UUID followerId, UUID heroId, String operator, @Nullable UUID storyId) {
        new Checks().line("operator", operator, 200).refuse();
        var pair = pairs.of("follower", followerId, "hero", heroId);
        var halves = standing.of(pair, operator, storyId);
        var effects = clicks.of(pair.follower().displayId());
        if (effects.all().isEmpty()) {
            throw Refusal.conflict("Nothing is known of what a click does on "
                    + pair.follower().path()
                    + " or on others of its model: read it, turn one control, and read it again.");
        }
        var now = toAimAt(Offsets.between(halves.follower(), halves.hero()), halves.follower());
        var aim = aims.of(pair, operator, now);
        var wanted = wanted(now, withinSignal(aim.offset()), effects);
        if (wanted.isEmpty()) {
            throw Refusal.conflict(
                    "The last runs of the two share no white whose light the meter can tell, with a grey that"
                            + " readings before and after a trim hold as well: measure white on both.");
        }
        mustKnowWhatWasTurned(halves, effects, wanted);
        var suggested = TrimSuggester.suggest(
                effects,
                controls(pair.follower(), halves, effects),
                wanted,
                Tolerances.DEFAULT,
                floor(pair.follower(), halves));
        return shown(pair, operator, halves, aim, suggested);
    }

    /**
     * The offset without the greys that are nobody's aim: super-white ones of a narrow range, and those of less light than greys
     * are verified from on, which mostly show noise.
     */
    private static AgreedOffset toAimAt(AgreedOffset offset, RunMeasured follower) {
        var codes = follower.readings().codes();
        var bright = follower.readings().greys().stream()
                .filter(reading -> reading.luminance() >= Verification.DEFAULT_FLOOR)
                .mapToDouble(reading -> codes.toSignal(reading.patch().red()))
                .filter(signal -> signal <= 1)
                .boxed()
                .collect(Collectors.toSet());
        return new AgreedOffset(
                offset.white(),
                offset.luminance(),
                offset.greys().stream()
                        .filter(grey -> bright.contains(grey.signal()))
                        .toList());
    }

    /** Offsets of other targets may hold super-white greys of a narrow range, which have no level here. */
    private static AgreedOffset withinSignal(AgreedOffset offset) {
        return new AgreedOffset(
                offset.white(),
                offset.luminance(),
                offset.greys().stream()
                        .filter(grey -> grey.signal() >= 0 && grey.signal() <= 1)
                        .toList());
    }

    /** The greys at which the effect of every control is known that is known at all. */
    private static List<Wanted> wanted(AgreedOffset now, AgreedOffset desired, ClickEffects effects) {
        var byControl = new HashMap<Control, Set<GreyLevel>>();
        effects.all().keySet().stream()
                .filter(click -> click.figure() == Figure.LN_LUMINANCE)
                .forEach(click -> byControl
                        .computeIfAbsent(click.control(), control -> new TreeSet<>())
                        .add(click.level()));
        return Wanted.between(now, desired).stream()
                .filter(wanted -> byControl.values().stream()
                        .filter(levels -> levels.contains(GreyLevel.WHITE))
                        .allMatch(levels -> levels.contains(wanted.level())))
                .toList();
    }

    /** What was turned since the reading must be known, else the reading tells of another display. */
    private static void mustKnowWhatWasTurned(Halves halves, ClickEffects effects, List<Wanted> wanted) {
        halves.now().since(halves.atReading()).keySet().stream()
                .filter(control -> wanted.stream()
                        .anyMatch(one -> effects.of(control, one.level(), Figure.LN_LUMINANCE)
                                .isEmpty()))
                .findFirst()
                .ifPresent(control -> {
                    throw Refusal.conflict(control + " was turned since the last reading of the follower, and nothing"
                            + " tells what it does: read the follower as it stands.");
                });
    }

    private List<ControlRange> controls(PresetFacts follower, Halves halves, ClickEffects effects) {
        var stated = ranges.of(follower.displayId()).stream()
                .collect(Collectors.toMap(range -> Controls.of(range.control(), range.level()), range -> range));
        var all = new TreeSet<>(stated.keySet());
        effects.all().keySet().forEach(click -> all.add(click.control()));
        all.addAll(halves.now().controls());
        return all.stream()
                .map(control -> range(control, stated.get(control), halves.atReading()))
                .toList();
    }

    private static ControlRange range(
            Control control, panelbook.wire.@Nullable ControlRange stated, Settings atReading) {
        var setting = atReading.of(control);
        var least = stated == null ? -USUAL_RANGE : stated.least();
        var most = stated == null ? USUAL_RANGE : stated.most();
        return new ControlRange(
                control, Controls.kind(control), setting, Math.min(least, setting), Math.max(most, setting));
    }

    /** Black may rise to that of the baseline and its tolerance; no limit where either was not measured. */
    private Optional<Floor> floor(PresetFacts follower, Halves halves) {
        var now = halves.follower().readings().black().map(Reading::luminance).filter(light -> light > 0);
        var then = calibrated
                .of(follower)
                .flatMap(baseline ->
                        runs.whole(follower, baseline.runId()).readings().black())
                .map(Reading::luminance);
        return now.flatMap(light -> then.map(black -> new Floor(light, black + calibrated.blackTolerance(follower))));
    }

    private static TrimSuggestion shown(
            Pair pair, String operator, Halves halves, Aim aim, panelbook.colorimetry.trim.TrimSuggestion suggested) {
        return new TrimSuggestion(
                pair.follower().presetId(),
                pair.follower().path(),
                pair.hero().presetId(),
                pair.hero().path(),
                operator,
                aim.source(),
                aim.words(),
                halves.follower().id(),
                halves.hero().id(),
                RunMeasured.correctionNames(halves.follower(), halves.hero()),
                changes(halves, suggested.clicks()),
                suggested.rest().stream().map(Suggestions::rest).toList(),
                suggested.costBefore(),
                suggested.costAfter(),
                suggested.whyNotMore().stream().map(Suggestions::why).toList(),
                suggested.effectUnknown().stream()
                        .map(Control::toString)
                        .sorted()
                        .toList());
    }

    private static List<TrimChange> changes(Halves halves, Map<Control, Integer> clicks) {
        var changes = new ArrayList<TrimChange>();
        new TreeSet<>(clicks.keySet())
                .forEach(control -> changes.add(new TrimChange(
                        control.name(),
                        Controls.level(control),
                        halves.now().of(control),
                        halves.atReading().of(control) + clicks.getOrDefault(control, 0))));
        return changes;
    }

    private static ExpectedRest rest(panelbook.colorimetry.trim.TrimSuggestion.Rest rest) {
        var ln = rest.lnLuminance();
        return new ExpectedRest(
                rest.level().percent(),
                rest.u().value(),
                rest.v().value(),
                100 * Math.expm1(ln.value()),
                Math.max(rest.u().standardUncertainty(), rest.v().standardUncertainty()),
                100 * Math.exp(ln.value()) * ln.standardUncertainty());
    }

    private static WhyNotMore why(panelbook.colorimetry.trim.TrimSuggestion.WhyNot why) {
        var control = why.control().map(Control::toString).orElse(null);
        return new WhyNotMore(
                NotMore.valueOf(why.reason().name()),
                control,
                words(why.reason(), control)
                        + String.format(Locale.ROOT, " That counts for %.2g of the cost.", why.wouldSave()));
    }

    private static String words(Reason reason, @Nullable String control) {
        return switch (reason) {
            case BOUND -> control + " ends here: if it goes further, state its range.";
            case GAIN_WOULD_CLIP -> control + " further above its calibrated setting would clip its channel.";
            case FLOOR_WOULD_RISE -> "Black would rise beyond its tolerance.";
            case WHOLE_CLICKS -> "There are no half clicks.";
            case EFFECT_UNSURE -> "What a click does is not known well: a reading after the next trim tells more.";
            case OUT_OF_REACH -> "No setting of these controls leads there.";
        };
    }
}
