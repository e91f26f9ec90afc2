package panelbook.app.board;

import jakarta.servlet.http.HttpServletResponse;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.database.AsOf;
import panelbook.app.fleet.Directory;
import panelbook.app.readiness.ReadinessHistories;
import panelbook.app.rest.Refusal;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.Room;

/** How the readiness of a room went, what changed it, and who. */
@BoardPage
class HistoryPages {

    private static final int USUAL_DAYS = 30;
    private static final MediaType CSV = MediaType.parseMediaType("text/csv;charset=UTF-8;header=present");

    private final ReadinessHistories histories;
    private final Directory directory;
    private final AsOf asOf;
    private final Clock clock;

    HistoryPages(ReadinessHistories histories, Directory directory, AsOf asOf, Clock clock) {
        this.histories = histories;
        this.directory = directory;
        this.asOf = asOf;
        this.clock = clock;
    }

    /** The days of a period, both included, in the time zone of the room; as typed. */
    record Period(String from, String to) {}

    @GetMapping("/board/rooms/{id}/history")
    String history(
            Model model,
            HttpServletResponse response,
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String from,
            @RequestParam(defaultValue = "") String to) {
        var room = directory.room(id);
        var zone = ZoneId.of(room.timeZone());
        var period = usual(new Period(from.strip(), to.strip()), zone);
        model.addAttribute("room", room);
        model.addAttribute("zone", zone);
        model.addAttribute("period", period);
        try {
            var history = history(room, period);
            var say = new BoardWords(clock.instant());
            model.addAttribute("history", history);
            model.addAttribute("strip", HistoryStrip.of(history, zone, say));
            model.addAttribute("spans", latestFirst(history.spans()));
            model.addAttribute("left", HistoryStrip.LEFT);
            model.addAttribute("width", HistoryStrip.WIDTH);
        } catch (Refusal refusal) {
            if (refusal.kind() != Refusal.Kind.INVALID) {
                throw refusal;
            }
            response.setStatus(refusal.kind().status());
            model.addAttribute("trouble", refusal.errors().get(0).detail());
        }
        return "history";
    }

    private static List<ReadinessSpan> latestFirst(List<ReadinessSpan> spans) {
        var turned = new ArrayList<>(spans);
        Collections.reverse(turned);
        return turned;
    }

    /** The same as CSV. */
    @GetMapping("/board/rooms/{id}/history.csv")
    ResponseEntity<byte[]> csv(
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String from,
            @RequestParam(defaultValue = "") String to) {
        var room = directory.room(id);
        var zone = ZoneId.of(room.timeZone());
        var period = usual(new Period(from.strip(), to.strip()), zone);
        var text = HistoryCsv.of(history(room, period), zone);
        var name = room.name() + " " + period.from() + " to " + period.to() + ".csv";
        return ResponseEntity.ok()
                .contentType(CSV)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename(name, StandardCharsets.UTF_8)
                                .build()
                                .toString())
                .body(text.getBytes(StandardCharsets.UTF_8));
    }

    private ReadinessHistory history(Room room, Period period) {
        var zone = ZoneId.of(room.timeZone());
        var from = start("from", period.from(), zone);
        var to = day("to", period.to()).plusDays(1).atStartOfDay(zone).toInstant();
        return histories.of(room.id(), from, to);
    }

    /** The day on which the book begins to keep its history starts with that moment. */
    private Instant start(String name, String typed, ZoneId zone) {
        var day = day(name, typed);
        var midnight = day.atStartOfDay(zone).toInstant();
        return asOf.beginning()
                .filter(beginning -> LocalDate.ofInstant(beginning, zone).equals(day))
                .orElse(midnight);
    }

    private static LocalDate day(String name, String typed) {
        try {
            return LocalDate.parse(typed);
        } catch (DateTimeException none) {
            throw Refusal.invalid(name, "\"" + typed + "\" is no day: write it like 2026-11-27.");
        }
    }

    /** What was left out: thirty days until today, as far as the book can tell. */
    private Period usual(Period typed, ZoneId zone) {
        var today = LocalDate.ofInstant(clock.instant(), zone);
        var usual = today.minusDays(USUAL_DAYS);
        var first = asOf.beginning()
                .map(beginning -> LocalDate.ofInstant(beginning, zone))
                .filter(usual::isBefore)
                .orElse(usual);
        return new Period(
                typed.from().isEmpty() ? first.toString() : typed.from(),
                typed.to().isEmpty() ? today.toString() : typed.to());
    }
}
