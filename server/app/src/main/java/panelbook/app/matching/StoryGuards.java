package panelbook.app.matching;

import java.util.HashMap;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.springframework.stereotype.Component;
import panelbook.app.matching.story.Guards;
import panelbook.app.matching.story.Story;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunMeasured;

/** Brings the guards the runs that they look at. */
@Component
class StoryGuards {

    private final MeasuredRuns runs;
    private final PresetFactsBook presets;
    private final CalibratedBook calibrated;

    StoryGuards(MeasuredRuns runs, PresetFactsBook presets, CalibratedBook calibrated) {
        this.runs = runs;
        this.presets = presets;
        this.calibrated = calibrated;
    }

    /** The guards of a story; empty when no control is turned that a guard looks at. */
    Optional<Guards> of(UUID followerPresetId, Story story) {
        if (!Guards.concern(story)) {
            return Optional.empty();
        }
        var follower = Objects.requireNonNull(
                presets.findAll(java.util.List.of(followerPresetId)).get(followerPresetId), "follower of a story");
        return Optional.of(of(follower, story));
    }

    private Guards of(PresetFacts follower, Story story) {
        var read = new HashMap<UUID, RunMeasured>();
        Function<UUID, RunMeasured> reader = id -> read.computeIfAbsent(id, run -> runs.whole(follower, run));
        return Guards.of(
                story,
                id -> reader.apply(id).measured(),
                id -> RunMeasured.correctionNames(reader.apply(id)),
                calibrated.of(follower).map(CalibratedBook.Calibrated::runId).orElse(null),
                calibrated.blackTolerance(follower));
    }
}
