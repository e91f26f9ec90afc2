package panelbook.app.board;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.database.AsOf;
import panelbook.app.drawing.Drawings;
import panelbook.app.fleet.RoomContents;
import panelbook.app.papers.PaperPicture;
import panelbook.app.papers.PaperWords;
import panelbook.app.papers.Papers;
import panelbook.app.papers.StateStrip;
import panelbook.app.readiness.ReadinessHistories;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Checks;
import panelbook.app.sheet.RoomSheets;
import panelbook.wire.Paper;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.ReadinessState;

/** Pages to take along on paper: the room sheet, the history of a room, and a display with its charts, as PDF. */
@BoardPage
class PaperPages {

    private static final int USUAL_DAYS = 30;
    private static final String WRITE = "Write a day such as 2026-11-27.";

    private final Papers papers;
    private final RoomSheets sheets;
    private final DisplayViews displays;
    private final ReadinessHistories histories;
    private final RoomContents rooms;
    private final AsOf asOf;
    private final Clock clock;

    PaperPages(
            Papers papers,
            RoomSheets sheets,
            DisplayViews displays,
            ReadinessHistories histories,
            RoomContents rooms,
            AsOf asOf,
            Clock clock) {
        this.papers = papers;
        this.sheets = sheets;
        this.displays = displays;
        this.histories = histories;
        this.rooms = rooms;
        this.asOf = asOf;
        this.clock = clock;
    }

    /** The room sheet; {@code instrument} names meters in hand by their ids. */
    @GetMapping(path = "/board/rooms/{id}/sheet.pdf", produces = MediaType.APPLICATION_PDF_VALUE)
    @AnswersAsOf
    ResponseEntity<byte[]> sheet(
            @PathVariable UUID id, @RequestParam(required = false) @Nullable Set<UUID> instrument) {
        var sheet = sheets.of(id, instrument == null ? Set.of() : instrument);
        var words = new PaperWords(ZoneId.of(sheet.room().timeZone()));
        var name =
                "Room sheet " + sheet.room().facility() + " / " + sheet.room().name();
        return pdf(
                name + " " + sheet.at().atZone(words.zone()).toLocalDate(),
                "papers/sheet",
                words,
                name,
                "Everything asked on arrival in a room",
                Map.of("sheet", sheet));
    }

    /** A display with its presets and the charts of one of them; the first, where {@code preset} names none. */
    @GetMapping(path = "/board/displays/{id}.pdf", produces = MediaType.APPLICATION_PDF_VALUE)
    @AnswersAsOf
    ResponseEntity<byte[]> display(@PathVariable UUID id, @RequestParam(required = false) @Nullable UUID preset) {
        var view = displays.of(id, preset);
        var name =
                "Display " + view.display().facility() + " / " + view.display().name();
        return pdf(
                name + " " + view.at().atZone(view.zone()).toLocalDate(),
                "papers/display",
                new PaperWords(view.zone()),
                name,
                "A display, how its presets stand, and the charts of one of them",
                Map.of(
                        "view",
                        view,
                        "pictures",
                        view.pictures().stream().map(PaperPages::onPaper).toList()));
    }

    private static DisplayViews.Picture onPaper(DisplayViews.Picture picture) {
        var drawing = picture.drawing();
        var svg = Drawings.svg(drawing, Paper.WHITE);
        return new DisplayViews.Picture(
                drawing, PaperPicture.of(svg, drawing.title() + ". " + drawing.summary()), picture.table());
    }

    /** The history of a room's readiness; both days included, in the room's time zone; the last thirty days without them. */
    @GetMapping(path = "/board/rooms/{id}/history.pdf", produces = MediaType.APPLICATION_PDF_VALUE)
    ResponseEntity<byte[]> history(
            @PathVariable UUID id,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate from,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate to) {
        var zone = ZoneId.of(rooms.room(id).timeZone());
        var last = to == null ? LocalDate.ofInstant(clock.instant(), zone) : to;
        var first = from == null && written(last) ? last.minusDays(USUAL_DAYS) : from == null ? last : from;
        new Checks()
                .that(written(first), "from", WRITE)
                .that(written(last), "to", WRITE)
                .refuse();
        var history = histories.of(
                id,
                start(first, zone, from == null),
                last.plusDays(1).atStartOfDay(zone).toInstant());
        var name = "History of " + history.facility() + " / " + history.room();
        return pdf(
                name + " " + first + " to " + last,
                "papers/history",
                new PaperWords(zone),
                name,
                "The readiness of a room over time, and what changed it",
                Map.of(
                        "history", history,
                        "shares", shares(history),
                        "strip", StateStrip.svg(history.spans(), history.from(), history.to(), zone),
                        "printedAt", clock.instant()));
    }

    /** Whether it is a day that the database can hold. */
    private static boolean written(LocalDate day) {
        return !day.isBefore(LocalDate.EPOCH) && day.getYear() <= 9999;
    }

    /** A period begins at the earliest when the book began to keep its history, if that day or no day was asked for. */
    private Instant start(LocalDate day, ZoneId zone, boolean usual) {
        var midnight = day.atStartOfDay(zone).toInstant();
        return asOf.beginning()
                .filter(beginning -> beginning.isAfter(midnight)
                        && (usual || LocalDate.ofInstant(beginning, zone).equals(day)))
                .orElse(midnight);
    }

    /**
     * How long the room was in a state.
     *
     * @param share of the time that the book tells of, 0 to 1
     */
    record Share(ReadinessState state, double hours, double share) {}

    private static List<Share> shares(ReadinessHistory history) {
        var all = hours(history, null);
        return Arrays.stream(ReadinessState.values())
                .map(state -> new Share(state, hours(history, state), all == 0 ? 0 : hours(history, state) / all))
                .toList();
    }

    private static double hours(ReadinessHistory history, @Nullable ReadinessState state) {
        return history.spans().stream()
                .filter(span -> state == null || span.state() == state)
                .mapToDouble(span -> Duration.between(span.from(), span.to()).toMillis() / 3_600_000.0)
                .sum();
    }

    private ResponseEntity<byte[]> pdf(
            String fileName,
            String template,
            PaperWords words,
            String title,
            String subject,
            Map<String, Object> parts) {
        var model = new HashMap<>(parts);
        model.put("paper", words);
        model.put("title", title);
        model.put("subject", subject);
        model.put("keywords", "Panelbook");
        model.put("foot", "Printed " + words.exact(clock.instant()) + ", " + words.zone());
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.inline()
                                .filename(fileName.replace(" / ", " ") + ".pdf", StandardCharsets.UTF_8)
                                .build()
                                .toString())
                .body(papers.print(template, model));
    }
}
