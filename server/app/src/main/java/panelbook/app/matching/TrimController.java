package panelbook.app.matching;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.access.Caller;
import panelbook.app.rest.Adds;
import panelbook.app.rest.RefusesByContent;
import panelbook.wire.ClickEffect;
import panelbook.wire.ControlRange;
import panelbook.wire.ControlRangeDraft;
import panelbook.wire.Restoration;
import panelbook.wire.TrimSuggestion;

/** Controls: how far they go, what a click does, which clicks to try, what to set to get back. */
@RestController
class TrimController {

    private static final String RANGES = "/api/v1/displays/{id}/control-ranges";

    private final ControlRanges ranges;
    private final ClickBook clicks;
    private final Suggestions suggestions;
    private final Restorations restorations;

    TrimController(ControlRanges ranges, ClickBook clicks, Suggestions suggestions, Restorations restorations) {
        this.ranges = ranges;
        this.clicks = clicks;
        this.suggestions = suggestions;
        this.restorations = restorations;
    }

    /** How far the controls of a display go, as far as anybody stated it. */
    @GetMapping(RANGES)
    List<ControlRange> controlRanges(@PathVariable UUID id) {
        return ranges.of(id);
    }

    /** States how far a control goes. */
    @Adds
    @PostMapping(RANGES)
    ResponseEntity<ControlRange> stateControlRange(@PathVariable UUID id, @RequestBody ControlRangeDraft draft) {
        return ranges.state(id, draft, Caller.current()).at(RANGES.replace("{id}", id.toString()));
    }

    /** What a click of each control does. */
    @GetMapping("/api/v1/displays/{id}/click-effects")
    List<ClickEffect> clickEffects(@PathVariable UUID id) {
        return clicks.shown(id);
    }

    /** The clicks that bring a follower nearest to its hero and the offset that its operator is expected to accept. */
    @RefusesByContent
    @GetMapping("/api/v1/trim-suggestions")
    TrimSuggestion trimSuggestion(
            @RequestParam UUID follower,
            @RequestParam UUID hero,
            @RequestParam String operator,
            @RequestParam(required = false) @Nullable UUID story) {
        return suggestions.suggest(follower, hero, operator, story);
    }

    /** What to set to get back to an earlier state of a match that was opened. */
    @GetMapping(StoryController.PATH + "/{id}/restoration")
    Restoration restorationOfStep(@PathVariable UUID id, @RequestParam(required = false) @Nullable Integer step) {
        return restorations.ofStory(id, step);
    }

    /** What to set to get back to how a match was signed off. */
    @GetMapping("/api/v1/matches/{id}/restoration")
    Restoration restorationOfMatch(@PathVariable UUID id) {
        return restorations.ofMatch(id);
    }
}
