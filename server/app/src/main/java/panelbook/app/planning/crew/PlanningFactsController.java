package panelbook.app.planning.crew;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Etags;
import panelbook.wire.Holiday;
import panelbook.wire.HolidayDraft;
import panelbook.wire.RoomPlanning;
import panelbook.wire.RoomPlanningDraft;
import panelbook.wire.TravelTime;
import panelbook.wire.TravelTimeDraft;
import panelbook.wire.WorkDuration;
import panelbook.wire.WorkDurationDraft;

/** Holidays, travel, durations of work and the importance of rooms. */
@RestController
class PlanningFactsController {

    private static final String HOLIDAYS = "/api/v1/holidays";
    private static final String ROOM = "/api/v1/rooms/{id}/planning";

    private final Holidays holidays;
    private final TravelTimes travelTimes;
    private final WorkDurations durations;
    private final RoomPlannings rooms;

    PlanningFactsController(Holidays holidays, TravelTimes travelTimes, WorkDurations durations, RoomPlannings rooms) {
        this.holidays = holidays;
        this.travelTimes = travelTimes;
        this.durations = durations;
        this.rooms = rooms;
    }

    /** Notes a holiday. */
    @Adds
    @PostMapping(HOLIDAYS)
    ResponseEntity<Holiday> addHoliday(@RequestBody HolidayDraft draft) {
        return holidays.add(draft).at(HOLIDAYS);
    }

    /** Holidays by day; those of a facility are its own and those of every facility. */
    @GetMapping(HOLIDAYS)
    List<Holiday> listHolidays(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate from,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate until,
            @RequestParam(defaultValue = "false") boolean cancelled) {
        return holidays.list(facility, from, until, cancelled);
    }

    /** Takes a holiday back. */
    @PostMapping(HOLIDAYS + "/{id}/cancellation")
    Holiday cancelHoliday(@PathVariable UUID id) {
        return holidays.cancel(id);
    }

    /** How far facilities lie apart, each pair once. */
    @GetMapping("/api/v1/travel-times")
    List<TravelTime> listTravelTimes() {
        return travelTimes.list();
    }

    /** Says how long it takes from one facility to another, either way. */
    @PutMapping("/api/v1/travel-times/{one}/{other}")
    ResponseEntity<TravelTime> editTravelTime(
            @PathVariable UUID one,
            @PathVariable UUID other,
            @RequestBody TravelTimeDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        var edited = travelTimes.set(one, other, draft, Etags.expected(ifMatch));
        return ResponseEntity.ok().eTag(Etags.of(edited.version())).body(edited);
    }

    /** How long work takes: the figures of the house, then those of each model, told or learned. */
    @GetMapping("/api/v1/work-durations")
    List<WorkDuration> listWorkDurations(@RequestParam(required = false) @Nullable String model) {
        return durations.list(model);
    }

    /** Says how long a piece of work takes. */
    @PutMapping("/api/v1/work-durations")
    ResponseEntity<WorkDuration> editWorkDuration(
            @RequestBody WorkDurationDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        var edited = durations.set(draft, Etags.expected(ifMatch));
        return ResponseEntity.ok().eTag(Etags.of(edited.version())).body(edited);
    }

    /** How much a room weighs in a plan. */
    @GetMapping(ROOM)
    ResponseEntity<RoomPlanning> getRoomPlanning(@PathVariable UUID id) {
        return withEtag(rooms.get(id));
    }

    /** Says how much a room weighs in a plan. */
    @PutMapping(ROOM)
    ResponseEntity<RoomPlanning> editRoomPlanning(
            @PathVariable UUID id,
            @RequestBody RoomPlanningDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(rooms.set(id, draft, Etags.expected(ifMatch)));
    }

    private static ResponseEntity<RoomPlanning> withEtag(RoomPlanning found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
