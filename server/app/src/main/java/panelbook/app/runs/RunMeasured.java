package panelbook.app.runs;

import java.util.List;
import java.util.UUID;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.wire.ReadingRef;

/**
 * A run with its readings and what they are worth.
 *
 * @param measured in the code values of the preset's target
 */
public record RunMeasured(StoredRun run, InstrumentFacts instrument, MeasuredRun measured) {

    static RunMeasured of(StoredRun run, PresetFacts preset, InstrumentFacts instrument, List<Reading> readings) {
        return new RunMeasured(
                run,
                instrument,
                new MeasuredRun(
                        Readings.of(preset.target().codes(), readings), instrument.on(preset.panelTechnology())));
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
