package panelbook.app.board;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.fleet.Directory;
import panelbook.app.instruments.Instruments;
import panelbook.app.rest.AnswersAsOf;

/** A room: its readiness and what that rests on, and the sheet to take along. */
@BoardPage
class RoomPages {

    private final RoomViews views;
    private final Directory directory;
    private final Instruments instruments;

    RoomPages(RoomViews views, Directory directory, Instruments instruments) {
        this.views = views;
        this.directory = directory;
        this.instruments = instruments;
    }

    @GetMapping("/board/rooms/{id}")
    @AnswersAsOf
    String room(
            Model model,
            @PathVariable UUID id,
            @RequestParam(name = Past.PARAMETER, defaultValue = "") String asOf,
            @RequestParam(name = Past.TYPED, defaultValue = "") String stoodAt) {
        var here = "/board/rooms/" + id;
        if (!stoodAt.isBlank()) {
            return Past.redirect(here, stoodAt, ZoneId.of(directory.room(id).timeZone()));
        }
        show(model, id, Set.of(), asOf, here);
        return "room";
    }

    /** {@code instrument} names meters in hand by their ids. */
    @GetMapping("/board/rooms/{id}/sheet")
    @AnswersAsOf
    String sheet(
            Model model,
            @PathVariable UUID id,
            @RequestParam(required = false) @Nullable Set<UUID> instrument,
            @RequestParam(name = Past.PARAMETER, defaultValue = "") String asOf) {
        var inHand = instrument == null ? Set.<UUID>of() : instrument;
        show(model, id, inHand, asOf, "/board/rooms/" + id + "/sheet");
        model.addAttribute("inHand", inHand);
        model.addAttribute("instruments", instruments.inUse());
        return "sheet";
    }

    private void show(Model model, UUID id, Set<UUID> inHand, String asOf, String here) {
        var view = views.of(id, inHand, !asOf.isBlank());
        var at = view.sheet().at();
        model.addAttribute("view", view);
        model.addAttribute("sheet", view.sheet());
        model.addAttribute("room", view.sheet().room());
        model.addAttribute("zone", view.zone());
        model.addAttribute("at", at);
        model.addAttribute("yesterday", yesterday(at, view.zone()));
        Past.tell(model, asOf, at, here);
    }

    private static LocalDate yesterday(Instant at, ZoneId zone) {
        return LocalDate.ofInstant(at, zone).minusDays(1);
    }
}
