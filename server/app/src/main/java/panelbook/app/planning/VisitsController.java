package panelbook.app.planning;

import java.time.Instant;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Page;
import panelbook.wire.Visit;
import panelbook.wire.VisitDraft;
import panelbook.wire.VisitDrop;
import panelbook.wire.VisitMove;
import panelbook.wire.VisitPin;
import panelbook.wire.VisitState;

/** Visits. */
@RestController
class VisitsController {

    private static final String PATH = "/api/v1/visits";
    private static final String ONE = PATH + "/{id}";
    private static final String IF_MATCH = "If-Match";

    private final Visits visits;

    VisitsController(Visits visits) {
        this.visits = visits;
    }

    /** Adds a visit, confirmed and pinned. */
    @Adds
    @PostMapping(PATH)
    ResponseEntity<Visit> addVisit(@RequestBody VisitDraft draft) {
        var added = visits.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Visits by start; those that reach into the time from {@code from} to {@code until}, and are in one of the states. */
    @GetMapping(PATH)
    Page<Visit> listVisits(
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable UUID calibrator,
            @RequestParam(required = false) @Nullable Instant from,
            @RequestParam(required = false) @Nullable Instant until,
            @RequestParam(required = false) @Nullable Set<VisitState> state,
            Paging paging) {
        var states = state == null || state.isEmpty()
                ? null
                : state.stream()
                        .filter(Objects::nonNull)
                        .map(VisitState::toString)
                        .sorted()
                        .toArray(String[]::new);
        return visits.page(new VisitFilter(room, facility, calibrator, from, until, states), paging);
    }

    /** One visit. */
    @GetMapping(ONE)
    ResponseEntity<Visit> getVisit(@PathVariable UUID id) {
        return withEtag(visits.get(id));
    }

    /** Agrees to a visit. */
    @PostMapping(ONE + "/confirmation")
    ResponseEntity<Visit> confirmVisit(
            @PathVariable UUID id, @RequestHeader(name = IF_MATCH, required = false) @Nullable String ifMatch) {
        return withEtag(visits.confirm(id, Etags.expected(ifMatch)));
    }

    /** Lays a visit elsewhere and pins it there. */
    @PostMapping(ONE + "/move")
    ResponseEntity<Visit> moveVisit(
            @PathVariable UUID id,
            @RequestBody VisitMove move,
            @RequestHeader(name = IF_MATCH, required = false) @Nullable String ifMatch) {
        return withEtag(visits.move(id, move, Etags.expected(ifMatch)));
    }

    /** Says whether plans leave a visit where it is. */
    @PostMapping(ONE + "/pin")
    ResponseEntity<Visit> pinVisit(
            @PathVariable UUID id,
            @RequestBody VisitPin pin,
            @RequestHeader(name = IF_MATCH, required = false) @Nullable String ifMatch) {
        return withEtag(visits.pin(id, pin, Etags.expected(ifMatch)));
    }

    /** Says that a visit was made. */
    @PostMapping(ONE + "/done")
    ResponseEntity<Visit> finishVisit(
            @PathVariable UUID id, @RequestHeader(name = IF_MATCH, required = false) @Nullable String ifMatch) {
        return withEtag(visits.done(id, Etags.expected(ifMatch)));
    }

    /** Says that a visit will not be made. */
    @PostMapping(ONE + "/drop")
    ResponseEntity<Visit> dropVisit(
            @PathVariable UUID id,
            @RequestBody VisitDrop drop,
            @RequestHeader(name = IF_MATCH, required = false) @Nullable String ifMatch) {
        return withEtag(visits.drop(id, drop, Etags.expected(ifMatch)));
    }

    private static ResponseEntity<Visit> withEtag(Visit found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
