package panelbook.app.runs;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.instruments.InstrumentFactsBook;
import panelbook.app.instruments.MeterCorrection;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.ReadingEntry;

/** Runs as they are to be read: brought together with their presets, instruments and readings. */
@Component
public class MeasuredRuns {

    private final RunBook runs;
    private final ReadingBook readings;
    private final InstrumentFactsBook instruments;
    private final PresetFactsBook presets;

    MeasuredRuns(RunBook runs, ReadingBook readings, InstrumentFactsBook instruments, PresetFactsBook presets) {
        this.presets = presets;
        this.runs = runs;
        this.readings = readings;
        this.instruments = instruments;
    }

    /** A run of the preset with the readings given, as they were taken. */
    public RunMeasured of(PresetFacts preset, StoredRun run, List<Reading> all) {
        return RunMeasured.of(run, preset, meterOf(run, metersOf(List.of(run))), all);
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

    /** A run of the preset, cut down to its greys. */
    public RunMeasured greysOf(PresetFacts preset, StoredRun run) {
        return of(preset, run, readings.greysOf(List.of(run.id())).getOrDefault(run.id(), List.of()));
    }

    /** The readings of a run as they were taken, in that order. */
    public List<Reading> taken(UUID runId) {
        return readings.of(runId);
    }

    /** Names of the corrections that runs of the preset are read with, each once; of those read as they were taken none. */
    public List<String> correctionsOf(PresetFacts preset, Collection<UUID> runIds) {
        var stored = runs.findAll(runIds);
        var meters = metersOf(stored);
        return stored.stream()
                .map(run -> RunMeasured.of(run, preset, meterOf(run, meters), List.of()))
                .flatMap(run -> run.correctionName().stream())
                .distinct()
                .toList();
    }

    /** Readings of a run as the correction of its meter gives them. */
    List<ReadingEntry> corrected(UUID runId, List<ReadingEntry> taken) {
        var run = runs.find(runId).orElseThrow();
        var preset = presets.find(run.presetId()).orElseThrow();
        var correction = of(preset, run, List.of()).correction();
        return correction == null
                ? taken
                : taken.stream().map(reading -> corrected(reading, correction)).toList();
    }

    private static ReadingEntry corrected(ReadingEntry r, MeterCorrection correction) {
        var xyz = correction.matrix().correct(new XYZ(r.x(), r.y(), r.z())).xyz();
        return new ReadingEntry(r.red(), r.green(), r.blue(), xyz.x(), xyz.y(), xyz.z());
    }

    /** Runs by id, cut down to their greys; the presets of all of them must be among those given. */
    public Map<UUID, RunMeasured> greysOf(Collection<UUID> runIds, Map<UUID, PresetFacts> presets) {
        var stored = runs.findAll(runIds);
        var meters = metersOf(stored);
        var greys = readings.greysOf(runIds);
        var measured = new HashMap<UUID, RunMeasured>();
        for (var run : stored) {
            measured.put(
                    run.id(),
                    RunMeasured.of(
                            run,
                            Objects.requireNonNull(presets.get(run.presetId()), "preset of a run"),
                            meterOf(run, meters),
                            greys.getOrDefault(run.id(), List.of())));
        }
        return measured;
    }

    /**
     * The runs that showed how presets stood, cut down to white, oldest first, by preset. Presets without any are left out.
     *
     * @param since from when on runs are asked for, by preset; a preset that is not in it gives all its runs
     */
    public Map<UUID, List<RunMeasured>> whitesOf(Map<UUID, PresetFacts> presets, Map<UUID, Instant> since) {
        return measured(presets, runs.standingWhites(codes(presets), since), null);
    }

    /**
     * As {@link #whitesOf}, since the state that each preset was left in. Presets that were left in none, or by sign-offs for
     * several operators in several, are left out.
     *
     * @param known a meter whose facts need not be read; null when there is none
     */
    public Map<UUID, List<RunMeasured>> whitesSinceLeft(
            Map<UUID, PresetFacts> presets, @Nullable InstrumentFacts known) {
        return measured(presets, runs.whitesSinceLeft(codes(presets)), known);
    }

    private static Map<UUID, Integer> codes(Map<UUID, PresetFacts> presets) {
        var codes = new HashMap<UUID, Integer>();
        presets.forEach((id, facts) -> codes.put(id, facts.target().codes().white()));
        return codes;
    }

    private Map<UUID, List<RunMeasured>> measured(
            Map<UUID, PresetFacts> presets, List<RunBook.WhiteTaken> taken, @Nullable InstrumentFacts known) {
        var meters = metersOf(taken, known);
        var whites = new HashMap<UUID, List<RunMeasured>>();
        for (var one : taken) {
            var preset = Objects.requireNonNull(presets.get(one.run().presetId()), "preset of a run");
            whites.computeIfAbsent(preset.presetId(), id -> new ArrayList<>())
                    .add(RunMeasured.of(one.run(), preset, meterOf(one.run(), meters), List.of(one.white())));
        }
        return whites;
    }

    private Map<UUID, InstrumentFacts> metersOf(List<RunBook.WhiteTaken> taken, @Nullable InstrumentFacts known) {
        var meters = new HashMap<UUID, InstrumentFacts>();
        var others = new ArrayList<StoredRun>();
        for (var one : taken) {
            if (known != null && one.run().instrumentId().equals(known.id())) {
                meters.put(known.id(), known);
            } else {
                others.add(one.run());
            }
        }
        if (!others.isEmpty()) {
            meters.putAll(metersOf(others));
        }
        return meters;
    }

    private Map<UUID, InstrumentFacts> metersOf(List<StoredRun> stored) {
        return instruments.findAll(stored.stream().map(StoredRun::instrumentId).collect(Collectors.toSet()));
    }

    private static InstrumentFacts meterOf(StoredRun run, Map<UUID, InstrumentFacts> meters) {
        return Objects.requireNonNull(meters.get(run.instrumentId()), "instrument of a run");
    }
}
