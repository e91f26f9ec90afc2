package panelbook.app.board;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;
import panelbook.app.access.Caller;
import panelbook.app.access.Presence;

/** Where open pages hear that something changed. */
@Controller
class StreamController {

    private final BoardStream stream;
    private final Presence presence;

    StreamController(BoardStream stream, Presence presence) {
        this.stream = stream;
        this.presence = presence;
    }

    /** Server-sent events: {@code alert}, {@code run}, {@code visit} with the room's id, or {@code unknown} where some may have been missed. */
    @GetMapping(path = "/board/stream", produces = MediaType.TEXT_EVENT_STREAM_VALUE)
    SseEmitter follow(HttpServletRequest request, HttpServletResponse response) {
        // proxies that gather answers before they pass them on would hold each event back
        response.setHeader("X-Accel-Buffering", "no");
        return stream.follow(Caller.current().id(), presence.of(request));
    }
}
