package panelbook.app.calendars;

import java.time.Duration;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.util.DigestUtils;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.context.request.WebRequest;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.wire.CalendarFeed;
import panelbook.wire.CalendarFeedDraft;
import panelbook.wire.NewCalendarFeed;
import panelbook.wire.Page;

/** Calendars of visits. */
@RestController
class CalendarFeedsController {

    private static final String PATH = "/api/v1/calendar-feeds";
    private static final MediaType CALENDAR = MediaType.parseMediaType("text/calendar;charset=UTF-8");
    private static final Duration FRESH = Duration.ofMinutes(5);

    private final CalendarFeeds feeds;
    private final VisitCalendars visits;

    CalendarFeedsController(CalendarFeeds feeds, VisitCalendars visits) {
        this.feeds = feeds;
        this.visits = visits;
    }

    /** Opens a calendar of visits; its address is shown this once. */
    @PostMapping(PATH)
    @ResponseStatus(HttpStatus.CREATED)
    NewCalendarFeed openCalendarFeed(@RequestBody CalendarFeedDraft draft) {
        return feeds.open(draft);
    }

    /** Calendars of visits, oldest first. */
    @GetMapping(PATH)
    Page<CalendarFeed> listCalendarFeeds(
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(defaultValue = "false") boolean revoked,
            Paging paging) {
        return feeds.page(room, revoked, paging);
    }

    /** Closes a calendar of visits for good. */
    @PostMapping(PATH + "/{id}/revocation")
    CalendarFeed closeCalendarFeed(@PathVariable UUID id) {
        return feeds.revoke(id);
    }

    /** The calendar of a secret address, for calendar programs. */
    @GetMapping(CalendarFeeds.PATH + "{secret}" + CalendarFeeds.SUFFIX)
    @Nullable
    ResponseEntity<byte[]> calendar(@PathVariable String secret, WebRequest request) {
        var feed = feeds.find(secret)
                .orElseThrow(() -> Refusal.of(
                        Refusal.Kind.NOT_FOUND,
                        "There is no calendar under this address, or no more: ask for a new one."));
        var text = visits.of(feed);
        var etag = "\"" + DigestUtils.md5DigestAsHex(text) + "\"";
        return request.checkNotModified(etag)
                ? null
                : ResponseEntity.ok()
                        .eTag(etag)
                        .cacheControl(CacheControl.maxAge(FRESH).cachePrivate())
                        // the address is a secret: no page that it is opened in may pass it on
                        .header("Referrer-Policy", "no-referrer")
                        .header(HttpHeaders.CONTENT_DISPOSITION, "inline; filename=\"visits.ics\"")
                        .contentType(CALENDAR)
                        .body(text);
    }
}
