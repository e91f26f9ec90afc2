package panelbook.app.assessment;

import java.util.List;
import java.util.UUID;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.wire.Baseline;
import panelbook.wire.BaselineDraft;
import panelbook.wire.Finding;
import panelbook.wire.RunVerdict;

@RestController
class AssessmentController {

    private final Verdicts verdicts;
    private final Baselines baselines;
    private final FindingBook findings;
    private final PresetFactsBook presets;
    private final RunBook runs;

    AssessmentController(
            Verdicts verdicts, Baselines baselines, FindingBook findings, PresetFactsBook presets, RunBook runs) {
        this.verdicts = verdicts;
        this.baselines = baselines;
        this.findings = findings;
        this.presets = presets;
        this.runs = runs;
    }

    @PostMapping("/api/v1/presets/{id}/baselines")
    RunVerdict declareBaseline(@PathVariable UUID id, @RequestBody BaselineDraft draft) {
        return verdicts.declare(id, draft);
    }

    @GetMapping("/api/v1/presets/{id}/baselines")
    @AnswersAsOf
    List<Baseline> presetBaselines(@PathVariable UUID id) {
        requirePreset(id);
        return baselines.of(id);
    }

    @GetMapping("/api/v1/presets/{id}/findings")
    @AnswersAsOf
    List<Finding> standingFindings(@PathVariable UUID id) {
        requirePreset(id);
        return findings.standing(List.of(id)).stream().map(Judged::finding).toList();
    }

    @GetMapping("/api/v1/runs/{id}/findings")
    List<Finding> runFindings(@PathVariable UUID id) {
        if (runs.find(id).isEmpty()) {
            throw Refusal.notFound("run", id);
        }
        return findings.ofRun(id);
    }

    private void requirePreset(UUID id) {
        if (presets.find(id).isEmpty()) {
            throw Refusal.notFound("preset", id);
        }
    }
}
