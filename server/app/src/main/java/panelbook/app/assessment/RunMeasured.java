package panelbook.app.assessment;

import java.util.List;
import java.util.UUID;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.StoredRun;
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
record RunMeasured(StoredRun run, InstrumentFacts instrument, MeasuredRun measured) {

    static RunMeasured of(StoredRun run, PresetFacts preset, InstrumentFacts instrument, List<Reading> readings) {
        return new RunMeasured(
                run,
                instrument,
                new MeasuredRun(
                        Readings.of(preset.target().codes(), readings), instrument.on(preset.panelTechnology())));
    }

    UUID id() {
        return run.id();
    }

    Readings readings() {
        return measured.readings();
    }

    ReadingRef ref(Patch patch) {
        return new ReadingRef(run.id(), patch.red(), patch.green(), patch.blue());
    }

    ReadingRef white() {
        return ref(Patch.grey(readings().codes().white()));
    }

    ReadingRef black() {
        return ref(Patch.grey(readings().codes().black()));
    }

    ReadingRef all() {
        return ReadingRef.all(run.id());
    }
}
