package panelbook.app.assessment;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.ReadingBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.colorimetry.signal.Reading;

/** Runs brought together with their presets, instruments and readings. */
@Component
class Subjects {

    private final RunBook runs;
    private final ReadingBook readings;
    private final InstrumentFactsBook instruments;

    Subjects(RunBook runs, ReadingBook readings, InstrumentFactsBook instruments) {
        this.runs = runs;
        this.readings = readings;
        this.instruments = instruments;
    }

    /** A run with the readings given. */
    Subject of(PresetFacts preset, StoredRun run, List<Reading> all) {
        var instrument = Objects.requireNonNull(
                instruments.findAll(List.of(run.instrumentId())).get(run.instrumentId()), "instrument of a run");
        return new Subject(preset, RunMeasured.of(run, preset, instrument, all));
    }

    /** A run with all its readings. */
    Subject of(PresetFacts preset, StoredRun run) {
        return of(preset, run, readings.of(run.id()));
    }

    /** Another run of the subject's preset, with all its readings. */
    RunMeasured whole(Subject subject, UUID runId) {
        if (runId.equals(subject.run().id())) {
            return subject.run();
        }
        var run = runs.find(runId).orElseThrow(() -> new IllegalStateException("no run " + runId));
        return of(subject.preset(), run).run();
    }

    /** Runs by id, cut down to their greys; the presets of all of them must be among those given. */
    Map<UUID, RunMeasured> greysOf(Collection<UUID> runIds, Map<UUID, PresetFacts> presets) {
        var stored = runs.findAll(runIds);
        var meters =
                instruments.findAll(stored.stream().map(StoredRun::instrumentId).collect(Collectors.toSet()));
        var greys = readings.greysOf(runIds);
        var measured = new HashMap<UUID, RunMeasured>();
        for (var run : stored) {
            measured.put(
                    run.id(),
                    RunMeasured.of(
                            run,
                            Objects.requireNonNull(presets.get(run.presetId()), "preset of a run"),
                            Objects.requireNonNull(meters.get(run.instrumentId()), "instrument of a run"),
                            greys.getOrDefault(run.id(), List.of())));
        }
        return measured;
    }
}
