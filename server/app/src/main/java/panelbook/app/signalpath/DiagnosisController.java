package panelbook.app.signalpath;

import java.util.UUID;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.RefusesByContent;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.colorimetry.signalpath.SignalPath;
import panelbook.wire.Diagnosis;

@RestController
class DiagnosisController {

    private final Diagnoses diagnoses;
    private final RunBook runs;
    private final PresetFactsBook presets;
    private final MeasuredRuns measured;

    DiagnosisController(Diagnoses diagnoses, RunBook runs, PresetFactsBook presets, MeasuredRuns measured) {
        this.diagnoses = diagnoses;
        this.runs = runs;
        this.presets = presets;
        this.measured = measured;
    }

    /** What the grey ramp of a run says of the signal path, with every explanation weighed. */
    @RefusesByContent
    @GetMapping("/api/v1/runs/{id}/diagnosis")
    Diagnosis runDiagnosis(@PathVariable UUID id) {
        var run = runs.find(id).orElseThrow(() -> Refusal.notFound("run", id));
        var preset = presets.find(run.presetId()).orElseThrow();
        return diagnoses
                .of(preset, measured.greysOf(preset, run))
                .orElseThrow(
                        () -> Refusal.conflict("The run holds no grey ramp that tells of the signal path: it takes at"
                                + " least " + SignalPath.LEAST_LEVELS
                                + " greys from black to white, with light. Measure a longer ramp."));
    }
}
