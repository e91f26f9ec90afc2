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
import panelbook.wire.Page;
import panelbook.wire.Retirement;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;

/** Tolerance sets. */
@RestController
@RequestMapping(ToleranceSetsController.PATH)
class ToleranceSetsController {

    static final String PATH = "/api/v1/tolerance-sets";

    private final ToleranceSets toleranceSets;

    ToleranceSetsController(ToleranceSets toleranceSets) {
        this.toleranceSets = toleranceSets;
    }

    /** Adds a tolerance set. */
    @Adds
    @PostMapping
    ResponseEntity<ToleranceSet> addToleranceSet(@RequestBody ToleranceSetDraft draft) {
        var added = toleranceSets.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Tolerance sets by name. */
    @GetMapping
    @AnswersAsOf
    Page<ToleranceSet> listToleranceSets(
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return toleranceSets.page(name, retired, paging);
    }

    /** One tolerance set. */
    @GetMapping("/{id}")
    @AnswersAsOf
    ResponseEntity<ToleranceSet> getToleranceSet(@PathVariable UUID id) {
        return withEtag(toleranceSets.get(id));
    }

    /** Edits a tolerance set. */
    @PutMapping("/{id}")
    ResponseEntity<ToleranceSet> editToleranceSet(
            @PathVariable UUID id,
            @RequestBody ToleranceSetDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(toleranceSets.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a tolerance set out of use. */
    @PostMapping("/{id}/retirement")
    ToleranceSet retireToleranceSet(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return toleranceSets.retire(id, retirement);
    }

    private static ResponseEntity<ToleranceSet> withEtag(ToleranceSet found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
