package panelbook.app.board;

import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.TemporalAdjusters;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.access.Caller;
import panelbook.app.calendars.Bookings;
import panelbook.app.fleet.Directory;
import panelbook.app.planning.Schedule;
import panelbook.app.rest.Refusal;
import panelbook.wire.Calibrator;
import panelbook.wire.Facility;
import panelbook.wire.Role;
import panelbook.wire.Visit;
import panelbook.wire.VisitMove;
import panelbook.wire.VisitState;

/** The visits of a week, and one visit with what may be done about it. */
@BoardPage
class PlanPages {

    private static final int DAYS = 7;

    private final Schedule schedule;
    private final Bookings bookings;
    private final Directory directory;
    private final Clock clock;

    PlanPages(Schedule schedule, Bookings bookings, Directory directory, Clock clock) {
        this.schedule = schedule;
        this.bookings = bookings;
        this.directory = directory;
        this.clock = clock;
    }

    /**
     * A calibrator's week.
     *
     * @param cells visits of each day
     */
    record Row(String calibrator, List<List<Visit>> cells) {}

    /**
     * A week.
     *
     * @param days Monday to Sunday
     * @param rows by calibrator, those without visits too
     * @param visits all of them, by start
     */
    record Week(LocalDate monday, List<LocalDate> days, List<Row> rows, List<Visit> visits) {

        /** The visits of a day, in the time zone of the room of each. */
        public List<Visit> on(LocalDate day) {
            return visits.stream().filter(visit -> dayOf(visit).equals(day)).toList();
        }
    }

    /**
     * What was typed into the form that moves a visit; kept where it is refused.
     *
     * @param day as typed
     * @param time as typed
     */
    record Typed(String day, String time, String calibrator, String reason, boolean insist) {}

    /** {@code week} is any day of the week; this one when left out. */
    @GetMapping("/board/plan")
    String plan(
            Model model,
            @RequestParam(defaultValue = "") String facility,
            @RequestParam(defaultValue = "") String week) {
        var of = Asked.id("facility", facility);
        var zone = zone(of);
        var today = LocalDate.ofInstant(clock.instant(), zone == null ? ZoneOffset.UTC : zone);
        var monday = (week.isBlank() ? today : day(week)).with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
        model.addAttribute("week", week(of, monday));
        model.addAttribute("facility", of);
        model.addAttribute("inFacility", of == null ? "" : "&facility=" + of);
        model.addAttribute("today", today);
        model.addAttribute("zone", zone);
        model.addAttribute("zones", zone == null ? "each room" : null);
        return "plan";
    }

    private @Nullable ZoneId zone(@Nullable UUID facility) {
        var zones = (facility == null ? directory.facilities() : List.of(directory.facility(facility)))
                .stream().map(Facility::timeZone).distinct().toList();
        return zones.size() == 1 ? ZoneId.of(zones.get(0)) : null;
    }

    private static LocalDate day(String text) {
        try {
            return LocalDate.parse(text.strip());
        } catch (DateTimeException none) {
            throw Refusal.invalid("week", "\"" + text + "\" is no day: write it like 2026-11-27.");
        }
    }

    private Week week(@Nullable UUID facility, LocalDate monday) {
        // a day more on each side: the week of a room may begin earlier or later than that of UTC
        var from = monday.minusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant();
        var until = monday.plusDays(DAYS + 1).atStartOfDay(ZoneOffset.UTC).toInstant();
        var days = IntStream.range(0, DAYS).mapToObj(monday::plusDays).toList();
        var visits = schedule.between(null, facility, from, until).stream()
                .filter(visit -> days.contains(dayOf(visit)))
                .toList();
        var names = Stream.concat(
                        schedule.calibrators().stream()
                                .filter(one ->
                                        facility == null || one.homeFacilityId().equals(facility))
                                .map(Calibrator::name),
                        visits.stream().map(Visit::calibrator))
                .distinct()
                .sorted()
                .toList();
        var rows = names.stream()
                .map(name -> new Row(
                        name,
                        days.stream()
                                .map(day -> visits.stream()
                                        .filter(visit -> visit.calibrator().equals(name)
                                                && dayOf(visit).equals(day))
                                        .toList())
                                .toList()))
                .toList();
        return new Week(monday, days, rows, visits);
    }

    private static LocalDate dayOf(Visit visit) {
        return LocalDate.ofInstant(visit.startsAt(), ZoneId.of(visit.timeZone()));
    }

    @GetMapping("/board/visits/{id}")
    String visit(Model model, @PathVariable UUID id) {
        return show(model, schedule.get(id), null);
    }

    @PostMapping("/board/visits/{id}/confirmation")
    String confirm(Model model, HttpServletResponse response, @PathVariable UUID id, @RequestParam long version) {
        try {
            schedule.confirm(id, version);
            return "redirect:/board/visits/" + id;
        } catch (Refusal refusal) {
            return again(model, response, id, "confirmation", refusal, null);
        }
    }

    @PostMapping("/board/visits/{id}/move")
    String move(
            Model model,
            HttpServletResponse response,
            @PathVariable UUID id,
            @RequestParam long version,
            @RequestParam(defaultValue = "") String day,
            @RequestParam(defaultValue = "") String time,
            @RequestParam(defaultValue = "") String calibrator,
            @RequestParam(defaultValue = "") String reason,
            @RequestParam(defaultValue = "false") boolean insist) {
        var typed = new Typed(day, time, calibrator, reason, insist);
        try {
            var there = schedule.get(id);
            var other = Asked.id("calibrator", calibrator);
            var move = new VisitMove(
                    start(typed, ZoneId.of(there.timeZone())),
                    there.calibratorId().equals(other) ? null : other,
                    reason.isBlank() ? null : reason.strip(),
                    insist);
            schedule.move(id, move, version);
            return "redirect:/board/visits/" + id;
        } catch (Refusal refusal) {
            return again(model, response, id, "move", refusal, typed);
        }
    }

    private static Instant start(Typed typed, ZoneId zone) {
        LocalDateTime local;
        try {
            local = LocalDate.parse(typed.day().strip())
                    .atTime(LocalTime.parse(typed.time().strip()));
        } catch (DateTimeException none) {
            throw Refusal.invalid("day", "Write the day like 2026-11-27 and the time like 09:30.");
        }
        if (zone.getRules().getValidOffsets(local).size() != 1) {
            throw Refusal.invalid(
                    "time", "The clocks of " + zone.getId() + " show that time never, or twice: choose another.");
        }
        return local.atZone(zone).toInstant();
    }

    /** Shows the visit again, with what is wrong and what was typed. */
    private String again(
            Model model, HttpServletResponse response, UUID id, String form, Refusal refusal, @Nullable Typed typed) {
        if (refusal.kind() == Refusal.Kind.NOT_FOUND || refusal.kind() == Refusal.Kind.FORBIDDEN) {
            throw refusal;
        }
        response.setStatus(refusal.kind().status());
        model.addAttribute("wrong", form);
        model.addAttribute(
                "trouble",
                refusal.errors().isEmpty()
                        ? Objects.requireNonNullElse(
                                refusal.getMessage(), refusal.kind().title())
                        : String.join(
                                " ",
                                refusal.errors().stream()
                                        .map(one -> one.detail())
                                        .toList()));
        return show(model, schedule.get(id), typed);
    }

    private String show(Model model, Visit visit, @Nullable Typed typed) {
        var zone = ZoneId.of(visit.timeZone());
        var start = visit.startsAt().atZone(zone);
        var day = start.toLocalDate();
        model.addAttribute("visit", visit);
        model.addAttribute("zone", zone);
        model.addAttribute("mayChange", mayChange(visit));
        model.addAttribute("calibrators", schedule.calibrators());
        model.addAttribute(
                "typed",
                typed != null
                        ? typed
                        : new Typed(
                                day.toString(),
                                new BoardWords(clock.instant()).clock(visit.startsAt(), zone),
                                visit.calibratorId().toString(),
                                "",
                                false));
        model.addAttribute(
                "bookings",
                bookings.of(
                                List.of(visit.roomId()),
                                day.minusDays(1).atStartOfDay(zone).toInstant(),
                                day.plusDays(2).atStartOfDay(zone).toInstant())
                        .get(visit.roomId()));
        return "visit";
    }

    /** As the contract allows: an engineer any visit that is ahead, a calibrator own ones. */
    private static boolean mayChange(Visit visit) {
        var ahead = visit.state() == VisitState.PROPOSED || visit.state() == VisitState.CONFIRMED;
        return ahead
                && Caller.find()
                        .map(caller -> caller.role() == Role.ENGINEER
                                || caller.role() == Role.CALIBRATOR
                                        && caller.holder().equals(visit.calibrator()))
                        .orElse(false);
    }
}
