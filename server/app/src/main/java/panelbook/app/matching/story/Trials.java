package panelbook.app.matching.story;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import panelbook.app.matching.story.Story.Taken;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.trim.KeyedRun;
import panelbook.colorimetry.trim.Trial;

/** What the readings of stories teach about clicks. */
public final class Trials {

    private Trials() {}

    /**
     * The trials among the readings of a follower in one match: each reading and the next between which one control alone was
     * turned, whatever was tried and taken back meanwhile. Readings between which several stand otherwise teach nothing, nor
     * do those of two meters, which part by more than the trim.
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
            var before = known.get(i - 1);
            var after = known.get(i);
            var moved = after.settings().since(before.settings());
            var one = keyed(before, runs);
            var other = keyed(after, runs);
            if (moved.size() == 1 && source(one).equals(source(other))) {
                var control = moved.firstKey();
                trials.add(new Trial(
                        control,
                        after.settings().of(control) - before.settings().of(control),
                        one,
                        other));
            }
        }
        return trials;
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
