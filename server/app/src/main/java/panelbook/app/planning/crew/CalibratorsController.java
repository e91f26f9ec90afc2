package panelbook.app.planning.crew;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Absence;
import panelbook.wire.AbsenceDraft;
import panelbook.wire.Calibrator;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** Calibrators and when they are away. */
@RestController
class CalibratorsController {

    private static final String PATH = "/api/v1/calibrators";
    private static final String ONE = PATH + "/{id}";

    private final Calibrators calibrators;
    private final Absences absences;

    CalibratorsController(Calibrators calibrators, Absences absences) {
        this.calibrators = calibrators;
        this.absences = absences;
    }

    /** Adds a calibrator. */
    @Adds
    @PostMapping(PATH)
    ResponseEntity<Calibrator> addCalibrator(@RequestBody CalibratorDraft draft) {
        var added = calibrators.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Calibrators by name. */
    @GetMapping(PATH)
    Page<Calibrator> listCalibrators(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return calibrators.page(facility, name, retired, paging);
    }

    /** One calibrator. */
    @GetMapping(ONE)
    ResponseEntity<Calibrator> getCalibrator(@PathVariable UUID id) {
        return withEtag(calibrators.get(id));
    }

    /** Edits a calibrator. */
    @PutMapping(ONE)
    ResponseEntity<Calibrator> editCalibrator(
            @PathVariable UUID id,
            @RequestBody CalibratorDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(calibrators.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a calibrator out of use, with the visits that were only proposed. */
    @PostMapping(ONE + "/retirement")
    Calibrator retireCalibrator(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return calibrators.retire(id, retirement);
    }

    /** Notes days on which a calibrator is away. */
    @Adds
    @PostMapping(ONE + "/absences")
    ResponseEntity<Absence> addAbsence(@PathVariable UUID id, @RequestBody AbsenceDraft draft) {
        return absences.add(id, draft).at(PATH + "/" + id + "/absences");
    }

    /** When a calibrator is away, earliest first. */
    @GetMapping(ONE + "/absences")
    List<Absence> listAbsences(@PathVariable UUID id, @RequestParam(defaultValue = "false") boolean cancelled) {
        return absences.of(id, cancelled);
    }

    /** Takes days away back. */
    @PostMapping("/api/v1/absences/{id}/cancellation")
    Absence cancelAbsence(@PathVariable UUID id) {
        return absences.cancel(id);
    }

    private static ResponseEntity<Calibrator> withEtag(Calibrator found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
