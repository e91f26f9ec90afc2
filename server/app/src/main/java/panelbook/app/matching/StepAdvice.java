package panelbook.app.matching;

import java.util.List;
import org.springframework.stereotype.Component;
import panelbook.app.matching.advice.AdviceBook;
import panelbook.app.matching.story.Controls;
import panelbook.app.matching.story.Step;
import panelbook.app.matching.story.Step.Half;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFactsBook;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.colorimetry.trim.ControlRange;
import panelbook.wire.AdviceMoment;
import panelbook.wire.OperatorVerdict;

/** What to tell after a step of a match. */
@Component
class StepAdvice {

    /** Whites further apart than this in u′v′ are odd for displays that were both calibrated to one target. House rule. */
    static final double BIG_DISTANCE = 0.02;

    /** Whites of which one gives more than this times the light of the other are so too. House rule. */
    static final double BIG_RATIO = 1.5;

    private final AdviceBook advice;
    private final MeasuredRuns runs;
    private final PresetFactsBook presets;

    StepAdvice(AdviceBook advice, MeasuredRuns runs, PresetFactsBook presets) {
        this.advice = advice;
        this.runs = runs;
        this.presets = presets;
    }

    /** The advice for the moment after the last step of a story. */
    List<String> after(Step step, StoredStory stored) {
        var said = step.said();
        return switch (said.kind()) {
            case OBSERVATION -> said.observation() == null ? List.of() : advice.of(said.observation());
            case TRIM ->
                advice.at(
                        isGainRaised(step, stored)
                                ? new AdviceMoment[] {AdviceMoment.GAIN_RAISED, AdviceMoment.TRIM}
                                : new AdviceMoment[] {AdviceMoment.TRIM});
            case VERDICT ->
                advice.at(
                        said.verdict() == OperatorVerdict.BETTER
                                ? new AdviceMoment[] {AdviceMoment.VERDICT, AdviceMoment.SIGN_OFF}
                                : new AdviceMoment[] {AdviceMoment.VERDICT});
            case READING -> isBigDifference(stored) ? advice.at(AdviceMoment.BIG_DIFFERENCE) : List.of();
            case RETURN, OVERRIDE, NOTE -> List.of();
        };
    }

    private static boolean isGainRaised(Step step, StoredStory stored) {
        var trim = step.said().trim();
        if (trim == null) {
            return false;
        }
        var control = Controls.of(trim);
        return Controls.kind(control) == ControlRange.Kind.GAIN
                && trim.clicks() > 0
                && stored.story().now().of(control) > 0;
    }

    /** Whether the last readings of follower and hero lie far apart. */
    private boolean isBigDifference(StoredStory stored) {
        var follower = stored.story().lastRunOf(Half.FOLLOWER);
        var hero = stored.story().lastRunOf(Half.HERO);
        if (follower.isEmpty() || hero.isEmpty()) {
            return false;
        }
        var opening = stored.opening();
        var facts = presets.findAll(List.of(opening.followerPresetId(), opening.heroPresetId()));
        var measured = runs.greysOf(List.of(follower.get(), hero.get()), facts);
        var ofFollower = measured.get(follower.get());
        var ofHero = measured.get(hero.get());
        if (ofFollower == null || ofHero == null) {
            return false;
        }
        var offset = AgreedOffset.of(ofFollower.measured(), ofHero.measured());
        return offset.white()
                        .map(white -> white.distance().value() > BIG_DISTANCE)
                        .orElse(false)
                || offset.luminance()
                        .map(ratio -> Math.abs(ratio.value()) > Math.log(BIG_RATIO))
                        .orElse(false);
    }
}
