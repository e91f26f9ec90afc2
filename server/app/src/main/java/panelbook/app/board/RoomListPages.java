package panelbook.app.board;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.wire.ReadinessState;

/** Which rooms may be booked, why not, and since when: everywhere, and in one facility. */
@BoardPage
class RoomListPages {

    private final RoomLists lists;

    RoomListPages(RoomLists lists) {
        this.lists = lists;
    }

    @GetMapping("/board")
    String everywhere(
            Model model,
            @RequestParam(defaultValue = "") String facility,
            @RequestParam(defaultValue = "") String state,
            @RequestParam(defaultValue = "") String text,
            @RequestParam(defaultValue = "") String reason,
            @RequestParam(defaultValue = "0") int skip) {
        var of = Asked.id("facility", facility);
        return page(model, new RoomLists.Filter(of, state(state), text.strip(), reason, Math.max(0, skip)), false);
    }

    @GetMapping("/board/facilities/{id}")
    String facility(
            Model model,
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String state,
            @RequestParam(defaultValue = "") String text,
            @RequestParam(defaultValue = "") String reason,
            @RequestParam(defaultValue = "0") int skip) {
        return page(model, new RoomLists.Filter(id, state(state), text.strip(), reason, Math.max(0, skip)), true);
    }

    private static @Nullable ReadinessState state(String word) {
        return Asked.word(ReadinessState.class, "state", word);
    }

    private String page(Model model, RoomLists.Filter filter, boolean ofFacility) {
        var found = lists.of(filter);
        model.addAttribute("found", found);
        model.addAttribute("filter", filter);
        model.addAttribute("ofFacility", ofFacility);
        model.addAttribute("states", ReadinessState.values());
        model.addAttribute("at", found.at());
        model.addAttribute("zone", found.zone());
        return "rooms";
    }
}
