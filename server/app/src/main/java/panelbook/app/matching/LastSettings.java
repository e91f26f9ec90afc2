package panelbook.app.matching;

import java.time.Instant;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import panelbook.app.matching.story.Settings;
import panelbook.app.rest.Days;
import panelbook.app.runs.PresetFacts;

/** How the controls of followers stood when the book last heard of them. */
@Component
class LastSettings {

    private final StoryRows stories;
    private final MatchRows matches;
    private final CalibratedBook calibrated;

    LastSettings(StoryRows stories, MatchRows matches, CalibratedBook calibrated) {
        this.stories = stories;
        this.matches = matches;
        this.calibrated = calibrated;
    }

    /**
     * Settings and what tells of them.
     *
     * @param since when they came about
     * @param words such as "as signed off for operator A on 2026-03-02"
     */
    record Known(Settings settings, Instant since, String words) {}

    /** As the open match, the last sign-off or the calibration left them, whichever came last. */
    Known of(PresetFacts follower) {
        var baseline = calibrated
                .of(follower)
                .map(found ->
                        new Known(Settings.CALIBRATED, found.since(), "as calibrated on " + Days.of(found.since())))
                .orElse(new Known(Settings.CALIBRATED, Instant.MIN, "as calibrated, since nothing says otherwise"));
        return Stream.concat(open(follower).stream(), signed(follower).stream())
                .reduce(baseline, (last, next) -> next.since().isBefore(last.since()) ? last : next);
    }

    private Optional<Known> open(PresetFacts follower) {
        var newest = stories.select(" where s.follower_preset_id = :follower and " + StoryRows.OPEN
                        + " order by s.opened_at desc, s.id limit 1")
                .param("follower", follower.presetId());
        return stories.list(newest).stream().findFirst().map(LastSettings::of);
    }

    /** As the last step of a match left them. */
    static Known of(StoredStory stored) {
        var steps = stored.story().steps();
        var last = steps.size();
        return new Known(
                stored.story().now(),
                last == 0 ? stored.openedAt() : steps.get(last - 1).said().at(),
                "as " + StoryWords.step(stored, last) + " left them");
    }

    private Optional<Known> signed(PresetFacts follower) {
        var newest = matches.select(" where m.follower_preset_id = :follower and " + MatchRows.COUNTS
                        + " order by m.signed_at desc, m.recorded_at desc limit 1")
                .param("follower", follower.presetId());
        return matches.list(newest).stream()
                .findFirst()
                .map(match -> new Known(Settings.of(match.trims()), match.signedAt(), StoryWords.signedOff(match)));
    }
}
