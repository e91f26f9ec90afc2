package panelbook.app.mending;

import java.util.UUID;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.access.Caller;
import panelbook.app.rest.Adds;
import panelbook.app.runs.Rivals;
import panelbook.wire.MergedDisplay;
import panelbook.wire.MergerDraft;

/** Mergers of displays that were entered twice. */
@RestController
class MergerController {

    private final Mergers mergers;

    MergerController(Mergers mergers) {
        this.mergers = mergers;
    }

    /** Merges a display that was entered twice into the one to keep. */
    @Adds
    @PostMapping("/api/v1/displays/{id}/merger")
    ResponseEntity<MergedDisplay> mergeDisplay(@PathVariable UUID id, @RequestBody MergerDraft draft) {
        return Rivals.untilDone(() -> mergers.merge(id, draft, Caller.current()))
                .at("/api/v1/displays/" + draft.into());
    }
}
