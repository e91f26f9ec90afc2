package panelbook.app.matching;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.matching.story.Settings;
import panelbook.app.rest.Days;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.wire.Restoration;
import panelbook.wire.StoryState;

/** Tells which controls to set to what to get back to an earlier state. */
@Component
class Restorations {

    private final StoryRows stories;
    private final MatchRows matches;
    private final PresetFactsBook presets;
    private final CalibratedBook calibrated;
    private final LastSettings last;

    Restorations(
            StoryRows stories,
            MatchRows matches,
            PresetFactsBook presets,
            CalibratedBook calibrated,
            LastSettings last) {
        this.stories = stories;
        this.matches = matches;
        this.presets = presets;
        this.calibrated = calibrated;
        this.last = last;
    }

    /**
     * Back to how a match that was opened stood.
     *
     * @param step after which; 0 for its opening, null for its last
     */
    @Transactional(readOnly = true)
    Restoration ofStory(UUID storyId, @Nullable Integer step) {
        var stored = stories.find(storyId).orElseThrow(() -> Refusal.notFound("match", storyId));
        var steps = stored.story().steps();
        var number = step == null ? steps.size() : step;
        if (number < 0 || number > steps.size()) {
            throw Refusal.invalid("step", "The match has steps 1 to " + steps.size() + "; 0 is its opening.");
        }
        var follower = preset(stored.opening().followerPresetId());
        var from = stored.state() == StoryState.OPEN ? LastSettings.of(stored) : last.of(follower);
        var at = number == 0 ? stored.openedAt() : steps.get(number - 1).said().at();
        return restoration(
                storyId,
                number,
                follower,
                "as " + StoryWords.step(stored, number) + " left them",
                at,
                from,
                stored.story().after(number));
    }

    /** Back to how a match was signed off. */
    @Transactional(readOnly = true)
    Restoration ofMatch(UUID matchId) {
        var match = matches.find(matchId).orElseThrow(() -> Refusal.notFound("match", matchId));
        var follower = preset(match.followerPresetId());
        return restoration(
                matchId,
                null,
                follower,
                StoryWords.signedOff(match),
                match.signedAt(),
                last.of(follower),
                Settings.of(match.trims()));
    }

    private PresetFacts preset(UUID id) {
        return presets.find(id).orElseThrow(() -> new IllegalStateException("no preset " + id));
    }

    private Restoration restoration(
            UUID id,
            @Nullable Integer step,
            PresetFacts follower,
            String state,
            Instant at,
            LastSettings.Known from,
            Settings wanted) {
        var calibratedSince = calibrated
                .of(follower)
                .filter(baseline -> baseline.since().isAfter(at))
                .map(baseline -> "; calibrated anew on " + Days.of(baseline.since())
                        + " since, so the same clicks need not give the same picture")
                .orElse("");
        return new Restoration(
                id,
                step,
                follower.path(),
                state + calibratedSince,
                from.words(),
                from.settings().to(wanted));
    }
}
