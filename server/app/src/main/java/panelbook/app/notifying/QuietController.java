package panelbook.app.notifying;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.wire.QuietPeriod;
import panelbook.wire.QuietPeriodDraft;

/** Quiet periods of rooms and displays. */
@RestController
@RequestMapping(QuietController.PATH)
class QuietController {

    static final String PATH = "/api/v1/quiet-periods";

    private final QuietPeriods periods;

    QuietController(QuietPeriods periods) {
        this.periods = periods;
    }

    /** Makes a quiet period. */
    @Adds
    @PostMapping
    ResponseEntity<QuietPeriod> addQuietPeriod(@RequestBody QuietPeriodDraft draft) {
        return periods.add(draft).at(PATH);
    }

    /** Quiet periods, those that are over only when asked for. */
    @GetMapping
    List<QuietPeriod> listQuietPeriods(
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @Nullable UUID display,
            @RequestParam(defaultValue = "false") boolean past) {
        return periods.list(room, display, past);
    }

    /** Ends a quiet period before its time. */
    @PostMapping("/{id}/end")
    QuietPeriod endQuietPeriod(@PathVariable UUID id) {
        return periods.end(id);
    }
}
