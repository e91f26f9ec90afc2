package panelbook.app.signalpath;

import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.signalpath.SignalPath;
import panelbook.wire.Diagnosis;

/** Diagnoses of runs that hold a grey ramp. */
@Component
public class Diagnoses {

    private final PresetFactsBook presets;
    private final RunBook runs;
    private final MeasuredRuns measured;

    Diagnoses(PresetFactsBook presets, RunBook runs, MeasuredRuns measured) {
        this.presets = presets;
        this.runs = runs;
        this.measured = measured;
    }

    /** The diagnosis with every explanation weighed; empty when the run holds no ramp of five levels with light. */
    public Optional<Diagnosis> of(PresetFacts preset, RunMeasured run) {
        return RunRamp.of(preset, run).map(RunRamp::diagnosis);
    }

    /**
     * The same, for where it has to be quick: faults are weighed only where one could be likelier than as intended. Then
     * it takes some milliseconds, else a fraction of one.
     */
    public Optional<Diagnosis> quickly(PresetFacts preset, RunMeasured run) {
        return RunRamp.of(preset, run).map(RunRamp::quickDiagnosis);
    }

    /**
     * The diagnosis of the latest run of a preset that holds a ramp, leaving out those taken cold and those taken while
     * matching; empty when there is none.
     */
    public Optional<Diagnosis> latestOf(UUID presetId) {
        return presets.find(presetId).flatMap(this::latestOf);
    }

    /** As {@link #latestOf(UUID)}. */
    public Optional<Diagnosis> latestOf(PresetFacts preset) {
        var codes = preset.target().codes();
        return runs.latestRampOf(preset.presetId(), codes.black(), codes.white(), SignalPath.LEAST_LEVELS)
                .flatMap(run -> quickly(preset, measured.greysOf(preset, run)));
    }
}
