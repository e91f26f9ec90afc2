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
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Retirement;

/** Presets. */
@RestController
@RequestMapping(PresetsController.PATH)
class PresetsController {

    static final String PATH = "/api/v1/presets";

    private final Presets presets;

    PresetsController(Presets presets) {
        this.presets = presets;
    }

    /** Adds a preset. */
    @Adds
    @PostMapping
    ResponseEntity<Preset> addPreset(@RequestBody PresetDraft draft) {
        var added = presets.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Presets by name; {@code path} is ROOM/DISPLAY/PRESET or FACILITY/ROOM/DISPLAY/PRESET. */
    @GetMapping
    @AnswersAsOf
    Page<Preset> listPresets(
            @RequestParam(required = false) @Nullable UUID display,
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @Nullable String path,
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return presets.page(new Presets.Filter(display, room, name, path), retired, paging);
    }

    /** One preset. */
    @GetMapping("/{id}")
    @AnswersAsOf
    ResponseEntity<Preset> getPreset(@PathVariable UUID id) {
        return withEtag(presets.get(id));
    }

    /** Renames a preset; its display and its target stay. */
    @PutMapping("/{id}")
    ResponseEntity<Preset> editPreset(
            @PathVariable UUID id,
            @RequestBody PresetDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(presets.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a preset out of use. */
    @PostMapping("/{id}/retirement")
    Preset retirePreset(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return presets.retire(id, retirement);
    }

    private static ResponseEntity<Preset> withEtag(Preset found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
