package panelbook.app.runs;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import panelbook.app.instruments.InstrumentFactsBook;
import panelbook.colorimetry.signal.Reading;

/** Runs as they are to be read: brought together with their presets, instruments and readings. */
@Component
public class MeasuredRuns {

    private final RunBook runs;
    private final ReadingBook readings;
    private final InstrumentFactsBook instruments;

    MeasuredRuns(RunBook runs, ReadingBook readings, InstrumentFactsBook instruments) {
        this.runs = runs;
        this.readings = readings;
        this.instruments = instruments;
    }

    /** A run of the preset with the readings given, as they were taken. */
    public RunMeasured of(PresetFacts preset, StoredRun run, List<Reading> all) {
        var instrument = Objects.requireNonNull(
                instruments.findAll(List.of(run.instrumentId())).get(run.instrumentId()), "instrument of a run");
        return RunMeasured.of(run, preset, instrument, all);
    }

    /** A run of the preset with all its readings. */
    public RunMeasured of(PresetFacts preset, StoredRun run) {
        return of(preset, run, readings.of(run.id()));
    }

    /**
     * A run of the preset, by id, with all its readings.
     *
     * @throws IllegalStateException when there is no such run
     */
    public RunMeasured whole(PresetFacts preset, UUID runId) {
        return of(preset, runs.find(runId).orElseThrow(() -> new IllegalStateException("no run " + runId)));
    }

    /** Runs by id, cut down to their greys; the presets of all of them must be among those given. */
    public Map<UUID, RunMeasured> greysOf(Collection<UUID> runIds, Map<UUID, PresetFacts> presets) {
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
