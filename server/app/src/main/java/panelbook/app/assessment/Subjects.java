package panelbook.app.assessment;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;
import panelbook.colorimetry.signal.Reading;

/** Presets with the runs that they are to be judged by, and the runs these are compared with. */
@Component
class Subjects {

    private final MeasuredRuns runs;

    Subjects(MeasuredRuns runs) {
        this.runs = runs;
    }

    /** A run with the readings given. */
    Subject of(PresetFacts preset, StoredRun run, List<Reading> all) {
        return new Subject(preset, runs.of(preset, run, all));
    }

    /** A run with all its readings. */
    Subject of(PresetFacts preset, StoredRun run) {
        return new Subject(preset, runs.of(preset, run));
    }

    /** Another run of the subject's preset, with all its readings. */
    RunMeasured whole(Subject subject, UUID runId) {
        return runId.equals(subject.run().id()) ? subject.run() : runs.whole(subject.preset(), runId);
    }

    /** Names of the corrections that runs of the subject's preset are read with. */
    List<String> correctionsOf(Subject subject, Collection<UUID> runIds) {
        return runs.correctionsOf(subject.preset(), runIds);
    }

    /** Runs by id, cut down to their greys; the presets of all of them must be among those given. */
    Map<UUID, RunMeasured> greysOf(Collection<UUID> runIds, Map<UUID, PresetFacts> presets) {
        return runs.greysOf(runIds, presets);
    }
}
