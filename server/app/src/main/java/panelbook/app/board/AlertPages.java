package panelbook.app.board;

import jakarta.servlet.http.HttpServletResponse;
import java.time.ZoneId;
import java.util.Locale;
import java.util.UUID;
import java.util.function.BiConsumer;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.access.Caller;
import panelbook.app.alerts.AlertBook;
import panelbook.app.alerts.Alerts;
import panelbook.app.fleet.Directory;
import panelbook.app.notifying.Deliveries;
import panelbook.app.rest.Refusal;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertState;
import panelbook.wire.Facility;

/** What needs a person, and what people do about it. */
@BoardPage
class AlertPages {

    private static final int MOST = 300;

    private final AlertLists lists;
    private final AlertBook book;
    private final Alerts alerts;
    private final Deliveries deliveries;
    private final Directory directory;

    AlertPages(AlertLists lists, AlertBook book, Alerts alerts, Deliveries deliveries, Directory directory) {
        this.lists = lists;
        this.book = book;
        this.alerts = alerts;
        this.deliveries = deliveries;
        this.directory = directory;
    }

    /** {@code room} is part of the name of a room. */
    @GetMapping("/board/alerts")
    String alerts(
            Model model,
            @RequestParam(defaultValue = "") String facility,
            @RequestParam(defaultValue = "") String room,
            @RequestParam(defaultValue = "") String cause,
            @RequestParam(defaultValue = "") String state) {
        var of = Asked.id("facility", facility);
        var ofCause = Asked.word(AlertCause.class, "cause", cause);
        var inState = Asked.word(AlertState.class, "state", state);
        var wanted = room.strip().toLowerCase(Locale.ROOT);
        var found = lists.of(of, null, ofCause, inState).stream()
                .filter(alert -> wanted.isEmpty()
                        || alert.room() != null
                                && alert.room().toLowerCase(Locale.ROOT).contains(wanted))
                .toList();
        var zones = directory.facilities().stream()
                .map(Facility::timeZone)
                .distinct()
                .toList();
        model.addAttribute("found", found.subList(0, Math.min(MOST, found.size())));
        model.addAttribute("all", found.size());
        model.addAttribute("facility", of);
        model.addAttribute("room", room.strip());
        model.addAttribute("cause", ofCause);
        model.addAttribute("state", inState);
        model.addAttribute("causes", AlertCause.values());
        model.addAttribute("states", AlertState.values());
        model.addAttribute("zone", zones.size() == 1 ? ZoneId.of(zones.get(0)) : null);
        return "alerts";
    }

    @GetMapping("/board/alerts/{id}")
    String alert(Model model, @PathVariable UUID id) {
        return show(model, book.get(id));
    }

    @PostMapping("/board/alerts/{id}/acknowledgement")
    String acknowledge(
            Model model,
            HttpServletResponse response,
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String note) {
        return answer(
                model, response, id, "note", note, (alert, text) -> alerts.acknowledge(alert, text, Caller.current()));
    }

    @PostMapping("/board/alerts/{id}/closure")
    String close(
            Model model,
            HttpServletResponse response,
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String reason) {
        return answer(
                model, response, id, "reason", reason, (alert, text) -> alerts.close(alert, text, Caller.current()));
    }

    /** Does it and shows the alert anew; what is refused is told beside what was typed, which stays. */
    private String answer(
            Model model,
            HttpServletResponse response,
            UUID id,
            String field,
            String typed,
            BiConsumer<UUID, String> deed) {
        try {
            deed.accept(id, typed.strip());
            return "redirect:/board/alerts/" + id;
        } catch (Refusal refusal) {
            if (refusal.kind() == Refusal.Kind.NOT_FOUND) {
                throw refusal;
            }
            response.setStatus(refusal.kind().status());
            model.addAttribute("wrong", field);
            model.addAttribute("typed", typed);
            model.addAttribute(
                    "trouble",
                    refusal.errors().isEmpty()
                            ? refusal.getMessage()
                            : refusal.errors().get(0).detail());
            return show(model, book.get(id));
        }
    }

    private String show(Model model, Alert alert) {
        model.addAttribute("alert", alert);
        model.addAttribute("told", deliveries.about(alert.id()));
        model.addAttribute("zone", zone(alert));
        if (alert.heldBy() != null) {
            model.addAttribute("holder", book.get(alert.heldBy()));
        }
        var presets = alert.findings().stream()
                .map(finding -> finding.presetId())
                .distinct()
                .toList();
        model.addAttribute("places", directory.places(presets));
        model.addAttribute(
                "firsts",
                presets.stream()
                        .map(preset -> alert.findings().stream()
                                .filter(finding -> finding.presetId().equals(preset))
                                .findFirst()
                                .orElseThrow())
                        .toList());
        return "alert";
    }

    private ZoneId zone(Alert alert) {
        if (alert.roomId() != null) {
            return ZoneId.of(directory.room(alert.roomId()).timeZone());
        }
        return ZoneId.of(
                alert.facilityId() == null
                        ? "UTC"
                        : directory.facility(alert.facilityId()).timeZone());
    }
}
