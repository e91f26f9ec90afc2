package panelbook.app.fleet;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Facility;
import panelbook.wire.FacilityDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** Facilities. */
@RestController
@RequestMapping(FacilitiesController.PATH)
class FacilitiesController {

    static final String PATH = "/api/v1/facilities";

    private final Facilities facilities;

    FacilitiesController(Facilities facilities) {
        this.facilities = facilities;
    }

    /** Adds a facility. */
    @Adds
    @PostMapping
    ResponseEntity<Facility> addFacility(@RequestBody FacilityDraft draft) {
        var added = facilities.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Facilities by name. */
    @GetMapping
    @AnswersAsOf
    Page<Facility> listFacilities(
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return facilities.page(name, retired, paging);
    }

    /** One facility. */
    @GetMapping("/{id}")
    @AnswersAsOf
    ResponseEntity<Facility> getFacility(@PathVariable UUID id) {
        return withEtag(facilities.get(id));
    }

    /** Edits a facility. */
    @PutMapping("/{id}")
    ResponseEntity<Facility> editFacility(
            @PathVariable UUID id,
            @RequestBody FacilityDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(facilities.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a facility out of use. */
    @PostMapping("/{id}/retirement")
    Facility retireFacility(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return facilities.retire(id, retirement);
    }

    private static ResponseEntity<Facility> withEtag(Facility facility) {
        return ResponseEntity.ok().eTag(Etags.of(facility.version())).body(facility);
    }
}
