package panelbook.app.alerts;

import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;
import panelbook.app.access.Caller;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertState;
import panelbook.wire.Closure;
import panelbook.wire.Page;

@RestController
class AlertController {

    private static final String ALERTS = "/api/v1/alerts";

    private final Alerts alerts;
    private final AlertLog log;
    private final AlertStream stream;
    private final AlertBook book;

    AlertController(Alerts alerts, AlertLog log, AlertStream stream, AlertBook book) {
        this.alerts = alerts;
        this.log = log;
        this.stream = stream;
        this.book = book;
    }

    /**
     * Newest first; open and acknowledged ones unless asked for others.
     *
     * @param held true for those only that another open alert explains, false for those only that speak for themselves;
     *     without it all are listed, so that nothing is hidden from whoever asks for a room or a cause
     */
    @GetMapping(ALERTS)
    @AnswersAsOf
    Page<Alert> alerts(
            Paging paging,
            @RequestParam(required = false) @Nullable Set<AlertState> state,
            @RequestParam(required = false) @Nullable AlertCause cause,
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable Boolean held) {
        return book.page(new AlertFilter(state == null ? Set.of() : state, cause, room, facility, held), paging);
    }

    @GetMapping(ALERTS + "/{id}")
    @AnswersAsOf
    ResponseEntity<Alert> alert(@PathVariable UUID id) {
        var alert = book.get(id);
        return ResponseEntity.ok().eTag(Etags.of(alert.version())).body(alert);
    }

    @PostMapping(ALERTS + "/{id}/acknowledgement")
    ResponseEntity<Alert> acknowledgeAlert(@PathVariable UUID id, @RequestBody Acknowledgement acknowledgement) {
        alerts.acknowledge(id, acknowledgement.note(), Caller.current());
        return alert(id);
    }

    @PostMapping(ALERTS + "/{id}/closure")
    ResponseEntity<Alert> closeAlert(@PathVariable UUID id, @RequestBody Closure closure) {
        alerts.close(id, closure.reason(), Caller.current());
        return alert(id);
    }

    /** Resumes after {@code Last-Event-ID}, else after {@code since}, else begins with what comes next. */
    @GetMapping(path = ALERTS + "/stream", produces = MediaType.TEXT_EVENT_STREAM_VALUE)
    SseEmitter followAlerts(
            @RequestHeader(name = "Last-Event-ID", required = false) @Nullable Long lastEventId,
            @RequestParam(required = false) @Nullable Long since) {
        if (lastEventId != null) {
            return stream.follow(lastEventId);
        }
        return stream.follow(since == null ? log.newest() : since);
    }
}
