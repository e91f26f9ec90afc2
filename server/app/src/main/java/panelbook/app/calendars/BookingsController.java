package panelbook.app.calendars;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Added;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Paging;
import panelbook.wire.Booking;
import panelbook.wire.BookingSource;
import panelbook.wire.BookingSourceDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** Bookings of rooms and the calendars that tell of them. */
@RestController
class BookingsController {

    private static final String OF_ROOM = "/api/v1/rooms/{id}/booking-sources";
    private static final String PATH = "/api/v1/booking-sources";

    private final BookingSources sources;
    private final CalendarReadings readings;
    private final CalendarRounds rounds;

    BookingsController(BookingSources sources, CalendarReadings readings, CalendarRounds rounds) {
        this.sources = sources;
        this.readings = readings;
        this.rounds = rounds;
    }

    /** Adds a calendar of a room; one with an address is fetched at once. */
    @Adds
    @PostMapping(OF_ROOM)
    ResponseEntity<BookingSource> addBookingSource(@PathVariable UUID id, @RequestBody BookingSourceDraft draft) {
        var added = sources.add(id, draft);
        rounds.fetchNow(draft.id());
        return new Added<>(sources.get(draft.id()), added.isNew()).at(PATH + "/" + draft.id());
    }

    /** The calendars of a room, by name. */
    @GetMapping(OF_ROOM)
    List<BookingSource> bookingSourcesOfRoom(@PathVariable UUID id) {
        return sources.of(id);
    }

    /** Calendars of rooms by name. */
    @GetMapping(PATH)
    Page<BookingSource> listBookingSources(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return sources.page(facility, room, retired, paging);
    }

    /** One calendar. */
    @GetMapping(PATH + "/{id}")
    BookingSource getBookingSource(@PathVariable UUID id) {
        return sources.get(id);
    }

    /** Takes a calendar as text/calendar in place of what the source said before. */
    @PutMapping(path = PATH + "/{id}/calendar", consumes = "text/calendar")
    BookingSource sendCalendar(@PathVariable UUID id, @RequestBody byte[] calendar) {
        readings.sent(id, calendar);
        return sources.get(id);
    }

    /** Fetches a calendar from its address now. */
    @PostMapping(PATH + "/{id}/fetch")
    BookingSource fetchCalendar(@PathVariable UUID id) {
        sources.get(id);
        rounds.fetchNow(id);
        return sources.get(id);
    }

    /** Takes a calendar out of use. */
    @PostMapping(PATH + "/{id}/retirement")
    BookingSource retireBookingSource(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return sources.retire(id, retirement);
    }

    /** When a room is booked; {@code from} and {@code until} are instants, now and four weeks later when left out. */
    @GetMapping("/api/v1/rooms/{id}/bookings")
    List<Booking> listBookings(
            @PathVariable UUID id,
            @RequestParam(required = false) @Nullable Instant from,
            @RequestParam(required = false) @Nullable Instant until) {
        return sources.bookings(id, from, until);
    }
}
