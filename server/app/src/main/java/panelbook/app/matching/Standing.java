package panelbook.app.matching;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.matching.story.Settings;
import panelbook.app.matching.story.Step.Half;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;

/** Finds the runs that show where the halves of a pair are, and how the controls of the follower stood for its run. */
@Component
class Standing {

    private final StoryRows stories;
    private final MatchRows matches;
    private final LastSettings last;
    private final CalibratedBook calibrated;
    private final RunBook runs;
    private final MeasuredRuns measured;

    Standing(
            StoryRows stories,
            MatchRows matches,
            LastSettings last,
            CalibratedBook calibrated,
            RunBook runs,
            MeasuredRuns measured) {
        this.stories = stories;
        this.matches = matches;
        this.last = last;
        this.calibrated = calibrated;
        this.runs = runs;
        this.measured = measured;
    }

    /**
     * Where a pair is.
     *
     * @param atReading how the controls of the follower stood for its run
     * @param now how they stand
     */
    record Halves(RunMeasured follower, RunMeasured hero, Settings atReading, Settings now) {}

    /** A run of the follower and how its controls stood. */
    private record Read(UUID runId, Settings settings) {}

    /**
     * Where a pair is, by the last readings of the match under way, else by the latest runs.
     *
     * @throws Refusal when there is no such match of the pair and operator, or one of the two has no run
     */
    Halves of(Pair pair, String operator, @Nullable UUID storyId) {
        var stored = storyId == null ? null : story(pair, operator, storyId);
        var now = stored == null
                ? last.of(pair.follower()).settings()
                : stored.story().now();
        var read = read(pair.follower(), stored, now);
        var hero = Optional.ofNullable(stored)
                .flatMap(story -> story.story().lastRunOf(Half.HERO))
                .orElseGet(() -> latest(pair.hero()).id());
        var byRun = measured.greysOf(
                List.of(read.runId(), hero),
                Map.of(pair.follower().presetId(), pair.follower(), pair.hero().presetId(), pair.hero()));
        return new Halves(
                Objects.requireNonNull(byRun.get(read.runId())),
                Objects.requireNonNull(byRun.get(hero)),
                read.settings(),
                now);
    }

    private StoredStory story(Pair pair, String operator, UUID storyId) {
        var stored =
                stories.find(storyId).orElseThrow(() -> Refusal.invalid("story", "There is no match " + storyId + "."));
        var opening = stored.opening();
        if (!opening.followerPresetId().equals(pair.follower().presetId())
                || !opening.heroPresetId().equals(pair.hero().presetId())
                || !opening.operator().equals(operator)) {
            throw Refusal.invalid("story", "This match is of another pair or for another operator.");
        }
        return stored;
    }

    private Read read(PresetFacts follower, @Nullable StoredStory stored, Settings now) {
        var taken = stored == null
                ? Optional.<Read>empty()
                : stored.story().followerReadings().stream()
                        .reduce((first, later) -> later)
                        .map(reading -> new Read(reading.runId(), reading.settings()));
        return taken.orElseGet(() -> {
            var run = latest(follower);
            return new Read(
                    run.id(),
                    settingsAt(
                            follower, run, stored == null ? now : stored.story().after(0)));
        });
    }

    private StoredRun latest(PresetFacts preset) {
        return runs.latestOf(List.of(preset.presetId())).stream()
                .findFirst()
                .orElseThrow(() -> Refusal.conflict("There is no run of " + preset.path()
                        + " that shows how it stands: measure white and greys first."));
    }

    /** As the baseline for its run, as signed off for a closing run; else as the book knows them. */
    private Settings settingsAt(PresetFacts follower, StoredRun run, Settings known) {
        if (calibrated
                .of(follower)
                .filter(found -> found.runId().equals(run.id()))
                .isPresent()) {
            return Settings.CALIBRATED;
        }
        return matches
                .list(matches.select(" where m.follower_run_id = :run and " + MatchRows.COUNTS
                                + " order by m.signed_at desc limit 1")
                        .param("run", run.id()))
                .stream()
                .findFirst()
                .map(match -> Settings.of(match.trims()))
                .orElse(known);
    }
}
