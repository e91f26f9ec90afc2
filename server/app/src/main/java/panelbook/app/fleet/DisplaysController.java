package panelbook.app.fleet;

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
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Display;
import panelbook.wire.DisplayDraft;
import panelbook.wire.MoveDraft;
import panelbook.wire.Page;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Retirement;
import panelbook.wire.Stay;

/** Displays, where they stand and what their counters say. */
@RestController
@RequestMapping(DisplaysController.PATH)
class DisplaysController {

    static final String PATH = "/api/v1/displays";

    private final Displays displays;
    private final Stays stays;
    private final PanelHoursBook panelHours;

    DisplaysController(Displays displays, Stays stays, PanelHoursBook panelHours) {
        this.displays = displays;
        this.stays = stays;
        this.panelHours = panelHours;
    }

    /** Adds a display, and puts it into a room if one is named. */
    @Adds
    @PostMapping
    ResponseEntity<Display> addDisplay(@RequestBody DisplayDraft draft) {
        var added = displays.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Displays by name. */
    @GetMapping
    @AnswersAsOf
    Page<Display> listDisplays(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return displays.page(facility, room, name, retired, paging);
    }

    /** One display. */
    @GetMapping("/{id}")
    @AnswersAsOf
    ResponseEntity<Display> getDisplay(@PathVariable UUID id) {
        return withEtag(displays.get(id));
    }

    /** Edits a display; it is moved, not edited, into another room. */
    @PutMapping("/{id}")
    ResponseEntity<Display> editDisplay(
            @PathVariable UUID id,
            @RequestBody DisplayDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(displays.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a display out of use and out of its room; its presets go with it. */
    @PostMapping("/{id}/retirement")
    Display retireDisplay(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return displays.retire(id, retirement);
    }

    /** Moves a display into a room, or out of every room. */
    @PostMapping("/{id}/moves")
    Display moveDisplay(@PathVariable UUID id, @RequestBody MoveDraft draft) {
        stays.move(id, draft);
        return displays.get(id);
    }

    /** Where a display stands and stood, newest first. */
    @GetMapping("/{id}/stays")
    List<Stay> listStays(@PathVariable UUID id) {
        return stays.of(id);
    }

    /** Values of the panel-hours counter, newest first. */
    @GetMapping("/{id}/panel-hours")
    Page<PanelHours> listPanelHours(@PathVariable UUID id, Paging paging) {
        return panelHours.page(id, paging);
    }

    /** Enters a value of the panel-hours counter. */
    @Adds
    @PostMapping("/{id}/panel-hours")
    ResponseEntity<PanelHours> addPanelHours(@PathVariable UUID id, @RequestBody PanelHoursDraft draft) {
        return panelHours.add(id, draft).at(PATH + "/" + id + "/panel-hours");
    }

    private static ResponseEntity<Display> withEtag(Display display) {
        return ResponseEntity.ok().eTag(Etags.of(display.version())).body(display);
    }
}
