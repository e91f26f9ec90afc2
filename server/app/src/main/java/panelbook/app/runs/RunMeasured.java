package panelbook.app.runs;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.instruments.MeterCorrection;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.wire.ReadingRef;

/**
 * A run with its readings, corrected, and what they are worth.
 *
 * @param correction that the readings were corrected with; null when they are as they were taken
 * @param measured in the code values of the preset's target
 */
public record RunMeasured(
        StoredRun run, InstrumentFacts instrument, @Nullable MeterCorrection correction, MeasuredRun measured) {

    /** Of readings as they were taken. */
    static RunMeasured of(StoredRun run, PresetFacts preset, InstrumentFacts instrument, List<Reading> raw) {
        var correction = instrument
                .correctionFor(run.takenAt(), preset.displayId(), preset.model())
                .orElse(null);
        var readings =
                correction == null ? raw : correction.matrix().correct(raw).readings();
        return new RunMeasured(
                run,
                instrument,
                correction,
                new MeasuredRun(
                        Readings.of(preset.target().codes(), readings),
                        instrument.on(preset.panelTechnology(), correction)));
    }

    /** Name of the correction that its readings were corrected with; empty when they are as they were taken. */
    public Optional<String> correctionName() {
        return Optional.ofNullable(correction).map(applied -> applied.name(instrument.name()));
    }

    /** Names of the corrections that runs are read with, each once; of those read as they were taken none. */
    public static List<String> correctionNames(RunMeasured... runs) {
        return Stream.of(runs)
                .flatMap(run -> run.correctionName().stream())
                .distinct()
                .toList();
    }

    /** The id of the run. */
    public UUID id() {
        return run.id();
    }

    /** Its readings, in the code values of the preset's target. */
    public Readings readings() {
        return measured.readings();
    }

    /** Where the reading of a patch stands. */
    public ReadingRef ref(Patch patch) {
        return new ReadingRef(run.id(), patch.red(), patch.green(), patch.blue());
    }

    /** Where the reading of white stands. */
    public ReadingRef white() {
        return ref(Patch.grey(readings().codes().white()));
    }

    /** Where the reading of black stands. */
    public ReadingRef black() {
        return ref(Patch.grey(readings().codes().black()));
    }

    /** All its readings together. */
    public ReadingRef all() {
        return ReadingRef.all(run.id());
    }
}
