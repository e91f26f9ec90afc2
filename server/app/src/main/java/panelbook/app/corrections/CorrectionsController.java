package panelbook.app.corrections;

import java.util.List;
import java.util.UUID;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.CorrectionWithdrawalDraft;

/** Corrections of instruments. */
@RestController
@RequestMapping(CorrectionsController.PATH)
class CorrectionsController {

    static final String PATH = "/api/v1/instruments/{id}/corrections";

    private final Corrections corrections;

    CorrectionsController(Corrections corrections) {
        this.corrections = corrections;
    }

    /** Makes a correction and judges anew what rests on readings that it changes. */
    @Adds
    @PostMapping
    ResponseEntity<Correction> makeCorrection(@PathVariable UUID id, @RequestBody CorrectionDraft draft) {
        return corrections.make(id, draft).at(PATH.replace("{id}", id.toString()));
    }

    /** What a correction would change; changes nothing. */
    @PostMapping("/preview")
    CorrectionPreview previewCorrection(@PathVariable UUID id, @RequestBody CorrectionDraft draft) {
        return corrections.preview(id, draft);
    }

    /** All corrections of an instrument, by display or model, the newest version first. */
    @GetMapping
    @AnswersAsOf
    List<Correction> listCorrections(@PathVariable UUID id) {
        return corrections.of(id);
    }

    /** Withdraws a correction and judges anew what rests on readings that it changed. */
    @PostMapping("/{correction}/withdrawal")
    Correction withdrawCorrection(
            @PathVariable UUID id, @PathVariable UUID correction, @RequestBody CorrectionWithdrawalDraft draft) {
        return corrections.withdraw(id, correction, draft);
    }
}
