package panelbook.app.matching.story;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import panelbook.app.matching.story.Story.Taken;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.trim.KeyedRun;
import panelbook.colorimetry.trim.Trial;

/** What the readings of stories teach about clicks. */
public final class Trials {

    private Trials() {}

    /**
     * The trials among the readings of a follower in one match: each reading with the latest before it between which one
     * control alone stands otherwise, whatever was tried and taken back meanwhile. A reading that no other differs from so
     * teaches nothing, nor do those of two meters, which part by more than the trim. No reading is the start of two trials of
     * one control: their noise would be the same and be taken for two.
     *
     * @param readings in the order taken
     * @param runs at least their greys; readings of runs that are not there are passed over
     */
    public static List<Trial> of(List<Taken> readings, Map<UUID, MeasuredRun> runs) {
        var known = readings.stream()
                .filter(taken -> runs.containsKey(taken.runId()))
                .toList();
        var trials = new ArrayList<Trial>();
        for (var i = 1; i < known.size(); i++) {
            var after = known.get(i);
            for (var j = i - 1; j >= 0; j--) {
                var trial = between(known.get(j), after, runs);
                if (trial.isPresent() && trials.stream().noneMatch(other -> startsLike(other, trial.get()))) {
                    trials.add(trial.get());
                    break;
                }
            }
        }
        return trials;
    }

    private static Optional<Trial> between(Taken before, Taken after, Map<UUID, MeasuredRun> runs) {
        var one = keyed(before, runs);
        var other = keyed(after, runs);
        var moved = after.settings().since(before.settings());
        if (moved.size() != 1 || !source(one).equals(source(other))) {
            return Optional.empty();
        }
        var control = moved.firstKey();
        return Optional.of(new Trial(
                control, after.settings().of(control) - before.settings().of(control), one, other));
    }

    private static boolean startsLike(Trial other, Trial trial) {
        return other.control().equals(trial.control())
                && other.before().key().equals(trial.before().key());
    }

    private static KeyedRun keyed(Taken taken, Map<UUID, MeasuredRun> runs) {
        return new KeyedRun(
                taken.runId().toString(),
                java.util.Objects.requireNonNull(runs.get(taken.runId()), "run of a reading"));
    }

    private static String source(KeyedRun run) {
        return run.run().uncertainty().source();
    }
}
