package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.wire.Quirk;
import panelbook.wire.QuirkDraft;
import panelbook.wire.SettlementDraft;

/** Quirks of displays. */
@RestController
class QuirksController {

    private static final String OF_DISPLAY = "/api/v1/displays/{id}/quirks";

    private final Quirks quirks;

    QuirksController(Quirks quirks) {
        this.quirks = quirks;
    }

    /** Quirks of a display, newest first. */
    @GetMapping(OF_DISPLAY)
    List<Quirk> listQuirks(@PathVariable UUID id, @RequestParam(defaultValue = "false") boolean settled) {
        return quirks.of(id, settled);
    }

    /** Notes a quirk of a display. */
    @Adds
    @PostMapping(OF_DISPLAY)
    ResponseEntity<Quirk> noteQuirk(@PathVariable UUID id, @RequestBody QuirkDraft draft) {
        return quirks.add(id, draft).at(OF_DISPLAY.replace("{id}", id.toString()));
    }

    /** Settles a quirk with a word on what became of it. */
    @PostMapping("/api/v1/quirks/{id}/settlement")
    Quirk settleQuirk(@PathVariable UUID id, @RequestBody SettlementDraft draft) {
        return quirks.settle(id, draft);
    }
}
