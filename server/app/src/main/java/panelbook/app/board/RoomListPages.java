package panelbook.app.board;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriComponentsBuilder;
import panelbook.app.fleet.Directory;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.ReadinessState;

/** Which rooms may be booked, why not, and since when: everywhere, and in one facility. */
@BoardPage
class RoomListPages {

    private final RoomLists lists;
    private final Directory directory;

    RoomListPages(RoomLists lists, Directory directory) {
        this.lists = lists;
        this.directory = directory;
    }

    @GetMapping("/board")
    @AnswersAsOf
    String everywhere(
            Model model,
            @RequestParam(defaultValue = "") String facility,
            @RequestParam(defaultValue = "") String state,
            @RequestParam(defaultValue = "") String text,
            @RequestParam(defaultValue = "") String reason,
            @RequestParam(defaultValue = "0") int skip,
            @RequestParam(name = Past.PARAMETER, defaultValue = "") String asOf,
            @RequestParam(name = Past.TYPED, defaultValue = "") String stoodAt) {
        if (!stoodAt.isBlank()) {
            var zones = directory.facilities().stream()
                    .map(one -> ZoneId.of(one.timeZone()))
                    .distinct()
                    .toList();
            return Past.redirect("/board", stoodAt, zones.size() == 1 ? zones.get(0) : ZoneOffset.UTC);
        }
        var filter = new RoomLists.Filter(
                Asked.id("facility", facility), state(state), text.strip(), reason, Math.max(0, skip));
        return page(model, filter, asOf, false);
    }

    @GetMapping("/board/facilities/{id}")
    @AnswersAsOf
    String facility(
            Model model,
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String state,
            @RequestParam(defaultValue = "") String text,
            @RequestParam(defaultValue = "") String reason,
            @RequestParam(defaultValue = "0") int skip,
            @RequestParam(name = Past.PARAMETER, defaultValue = "") String asOf,
            @RequestParam(name = Past.TYPED, defaultValue = "") String stoodAt) {
        if (!stoodAt.isBlank()) {
            return Past.redirect(
                    "/board/facilities/" + id,
                    stoodAt,
                    ZoneId.of(directory.facility(id).timeZone()));
        }
        return page(model, new RoomLists.Filter(id, state(state), text.strip(), reason, Math.max(0, skip)), asOf, true);
    }

    private static @Nullable ReadinessState state(String word) {
        return Asked.word(ReadinessState.class, "state", word);
    }

    private String page(Model model, RoomLists.Filter filter, String asOf, boolean ofFacility) {
        var found = lists.of(filter, !asOf.isBlank());
        model.addAttribute("found", found);
        model.addAttribute("filter", filter);
        model.addAttribute("ofFacility", ofFacility);
        model.addAttribute("states", ReadinessState.values());
        model.addAttribute("at", found.at());
        model.addAttribute("zone", found.zone());
        if (found.zone() == null && !found.lines().isEmpty()) {
            model.addAttribute("zones", "each room, named beside it");
        }
        var here = ofFacility ? "/board/facilities/" + filter.facility() : "/board";
        Past.tell(model, asOf, found.at(), here);
        if (found.next() != null) {
            model.addAttribute("rest", rest(here, filter, found.next(), asOf, ofFacility));
        }
        return "rooms";
    }

    /** The same list from further down on. */
    private static String rest(String here, RoomLists.Filter filter, int skip, String asOf, boolean ofFacility) {
        var address = UriComponentsBuilder.fromPath(here).queryParam("skip", skip);
        add(address, "state", filter.state() == null ? "" : filter.state().toString());
        add(address, "text", filter.text());
        add(address, "reason", filter.reason());
        add(
                address,
                "facility",
                ofFacility || filter.facility() == null ? "" : filter.facility().toString());
        add(address, Past.PARAMETER, asOf.strip());
        return address.encode().toUriString();
    }

    private static void add(UriComponentsBuilder address, String name, String value) {
        if (!value.isEmpty()) {
            address.queryParam(name, "{" + name + "}").uriVariables(Map.of(name, value));
        }
    }
}
