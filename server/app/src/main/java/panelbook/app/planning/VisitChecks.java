package panelbook.app.planning;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.calendars.Bookings;
import panelbook.app.calendars.BusyTime;
import panelbook.app.planning.crew.Absences;
import panelbook.app.planning.crew.Calibrators;
import panelbook.app.planning.crew.Holidays;
import panelbook.app.planning.crew.TravelTimes;
import panelbook.app.planning.crew.WorkDays;
import panelbook.app.rest.Days;
import panelbook.wire.Absence;
import panelbook.wire.Calibrator;
import panelbook.wire.Holiday;
import panelbook.wire.TravelTime;
import panelbook.wire.Visit;
import panelbook.wire.VisitWork;

/** What speaks against visits, as the book stands now. */
@Component
class VisitChecks {

    private static final int DAYS_AROUND = 1;

    /** Bookings are told whole where they are no longer than that before or after a visit. */
    private static final Duration AROUND_BOOKINGS = Duration.ofDays(30);

    private final Calibrators calibrators;
    private final Absences absences;
    private final Holidays holidays;
    private final TravelTimes travelTimes;
    private final Bookings bookings;
    private final PlanningBook book;
    private final Clock clock;

    VisitChecks(
            Calibrators calibrators,
            Absences absences,
            Holidays holidays,
            TravelTimes travelTimes,
            Bookings bookings,
            PlanningBook book,
            Clock clock) {
        this.calibrators = calibrators;
        this.absences = absences;
        this.holidays = holidays;
        this.travelTimes = travelTimes;
        this.bookings = bookings;
        this.book = book;
        this.clock = clock;
    }

    /** The visits with what speaks against those that lie ahead. */
    List<Visit> views(List<VisitRow> rows) {
        var now = clock.instant();
        var open = rows.stream()
                .filter(row -> row.ahead() && row.endsAt().isAfter(now))
                .toList();
        var facts = open.isEmpty() ? null : new Facts(open);
        return rows.stream()
                .map(row -> row.view(facts != null && open.contains(row) ? facts.against(row) : List.of()))
                .toList();
    }

    /** What speaks against a visit: bookings, absences, holidays, working hours, skills and travel. */
    List<String> against(VisitRow row) {
        return new Facts(List.of(row)).against(row);
    }

    /** All that has to be known of some visits, read at once. */
    private final class Facts {

        private final Map<UUID, Calibrator> people;
        private final List<Absence> away;
        private final List<Holiday> free;
        private final List<TravelTime> travel;
        private final Map<UUID, List<BusyTime>> booked;
        private final Map<UUID, String> technologies;

        Facts(List<VisitRow> rows) {
            var from = rows.stream()
                    .map(VisitRow::warmUpFrom)
                    .min(Instant::compareTo)
                    .orElseThrow();
            var to = rows.stream().map(VisitRow::endsAt).max(Instant::compareTo).orElseThrow();
            var firstDay = Days.of(from).minusDays(DAYS_AROUND);
            var lastDay = Days.of(to).plusDays(DAYS_AROUND);
            people = calibrators.all().stream().collect(Collectors.toMap(Calibrator::id, one -> one));
            away = absences.during(firstDay, lastDay);
            free = holidays.during(firstDay, lastDay);
            travel = travelTimes.list();
            booked = bookings.of(
                    rows.stream().map(VisitRow::roomId).distinct().toList(),
                    from.minus(AROUND_BOOKINGS),
                    to.plus(AROUND_BOOKINGS));
            technologies = book.technologies(rows.stream()
                    .flatMap(row -> row.work().stream())
                    .map(VisitWork::presetId)
                    .distinct()
                    .toList());
        }

        List<String> against(VisitRow row) {
            var calibrator = Objects.requireNonNull(people.get(row.calibratorId()), "calibrator of a visit");
            var found = new ArrayList<String>();
            for (var booking : booked.getOrDefault(row.roomId(), List.of())) {
                if (new Stretch(booking.from(), booking.until()).meets(row.warmUpFrom(), row.endsAt())) {
                    found.add(booked(row, booking));
                }
            }
            hours(row, calibrator, found);
            skills(row, calibrator, found);
            if (calibrator.retiredAt() != null) {
                found.add(calibrator.name() + " is retired.");
            }
            return List.copyOf(found);
        }

        /** Without its title: whoever sees the visit need not be one who may know what the room is booked for. */
        private static String booked(VisitRow row, BusyTime booking) {
            return row.room() + " is booked from " + Say.time(booking.from(), row.zone()) + " to "
                    + Say.time(booking.until(), row.zone()) + ".";
        }

        private void hours(VisitRow row, Calibrator calibrator, List<String> found) {
            var day = LocalDate.ofInstant(row.startsAt(), ZoneId.of(calibrator.timeZone()));
            var roomDay = LocalDate.ofInstant(row.startsAt(), row.zone());
            WorkDays.holiday(roomDay, row.facilityId(), free)
                    .ifPresent(holiday -> found.add(roomDay + " is a holiday: " + holiday.name() + "."));
            var absence = WorkDays.absence(day, calibrator, away);
            if (absence.isPresent()) {
                found.add(calibrator.name() + " is away from " + absence.get().fromDay() + " to "
                        + absence.get().toDay() + ".");
                return;
            }
            if (!row.facilityId().equals(calibrator.homeFacilityId())
                    && WorkDays.holiday(day, calibrator.homeFacilityId(), free).isPresent()) {
                found.add(day + " is a holiday where " + calibrator.name() + " is at home.");
                return;
            }
            var way = way(calibrator.homeFacilityId(), row.facilityId());
            if (way == null) {
                found.add("Nobody said how long it takes from " + calibrator.homeFacility() + " to "
                        + row.room().substring(0, row.room().indexOf('/')) + ".");
            }
            outside(row, calibrator, day, Duration.ofMinutes(way == null ? 0 : way), found);
        }

        private void outside(VisitRow row, Calibrator calibrator, LocalDate day, Duration way, List<String> found) {
            var within = WorkDays.of(calibrator, day.minusDays(1), day.plusDays(1), List.of(), List.of()).stream()
                    .anyMatch(work -> !work.from().isAfter(row.startsAt().minus(way))
                            && !work.to().isBefore(row.endsAt().plus(way)));
            if (!within) {
                found.add("It is outside the working hours of " + calibrator.name()
                        + (way.isZero() ? "." : ", who travels " + way.toMinutes() + " minutes each way."));
            }
        }

        private @Nullable Integer way(UUID one, UUID other) {
            return one.equals(other)
                    ? Integer.valueOf(0)
                    : travel.stream()
                            .filter(time -> time.oneFacilityId().equals(one)
                                            && time.otherFacilityId().equals(other)
                                    || time.oneFacilityId().equals(other)
                                            && time.otherFacilityId().equals(one))
                            .map(TravelTime::minutes)
                            .filter(Objects::nonNull)
                            .findFirst()
                            .orElse(null);
        }

        private void skills(VisitRow row, Calibrator calibrator, List<String> found) {
            if (calibrator.skills().isEmpty()) {
                return;
            }
            var known = calibrator.skills().stream().map(RoomWorks::skill).toList();
            row.work().stream()
                    .map(work -> technologies.getOrDefault(work.presetId(), ""))
                    .distinct()
                    .filter(technology -> !known.contains(RoomWorks.skill(technology)))
                    .sorted()
                    .forEach(technology -> found.add(calibrator.name() + " does not calibrate " + technology + "."));
        }
    }
}
