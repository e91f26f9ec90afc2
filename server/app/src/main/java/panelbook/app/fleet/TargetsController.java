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
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;

/** Targets. */
@RestController
@RequestMapping(TargetsController.PATH)
class TargetsController {

    static final String PATH = "/api/v1/targets";

    private final Targets targets;

    TargetsController(Targets targets) {
        this.targets = targets;
    }

    /** Adds a target. */
    @Adds
    @PostMapping
    ResponseEntity<Target> addTarget(@RequestBody TargetDraft draft) {
        var added = targets.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Targets by name. */
    @GetMapping
    @AnswersAsOf
    Page<Target> listTargets(
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return targets.page(name, retired, paging);
    }

    /** One target. */
    @GetMapping("/{id}")
    @AnswersAsOf
    ResponseEntity<Target> getTarget(@PathVariable UUID id) {
        return withEtag(targets.get(id));
    }

    /** Edits a target. */
    @PutMapping("/{id}")
    ResponseEntity<Target> editTarget(
            @PathVariable UUID id,
            @RequestBody TargetDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(targets.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a target out of use. */
    @PostMapping("/{id}/retirement")
    Target retireTarget(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return targets.retire(id, retirement);
    }

    private static ResponseEntity<Target> withEtag(Target found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
