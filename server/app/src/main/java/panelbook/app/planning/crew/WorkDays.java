package panelbook.app.planning.crew;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import panelbook.wire.Absence;
import panelbook.wire.Calibrator;
import panelbook.wire.Holiday;
import panelbook.wire.WorkingHours;

/** The days on which a calibrator works. */
public final class WorkDays {

    private WorkDays() {}

    /**
     * A stretch of work.
     *
     * @param day in the time zone of the home facility
     * @param to excluded
     */
    public record WorkDay(LocalDate day, Instant from, Instant to) {}

    /**
     * The stretches of work from one day to another, both included, in order: working hours by the local clock, whatever it
     * does, without absences and holidays. What follows on without a gap is one stretch.
     *
     * @param absences of anybody
     * @param holidays of any facility
     */
    public static List<WorkDay> of(
            Calibrator calibrator, LocalDate from, LocalDate to, List<Absence> absences, List<Holiday> holidays) {
        var found = new ArrayList<WorkDay>();
        var week = calibrator.week().stream()
                .sorted(Comparator.comparing(hours -> WeekChecks.minutes(hours.from())))
                .toList();
        for (var day = from; !day.isAfter(to); day = day.plusDays(1)) {
            if (holiday(day, calibrator.homeFacilityId(), holidays).isEmpty()
                    && absence(day, calibrator, absences).isEmpty()) {
                for (var hours : week) {
                    add(found, day, hours, ZoneId.of(calibrator.timeZone()));
                }
            }
        }
        return found;
    }

    /** The absence of a calibrator on a day, if there is one. */
    public static Optional<Absence> absence(LocalDate day, Calibrator calibrator, List<Absence> absences) {
        return absences.stream()
                .filter(absence -> absence.calibratorId().equals(calibrator.id()))
                .filter(absence -> !day.isBefore(absence.fromDay()) && !day.isAfter(absence.toDay()))
                .findFirst();
    }

    /** The holiday of a facility on a day, if there is one. */
    public static Optional<Holiday> holiday(LocalDate day, UUID facilityId, List<Holiday> holidays) {
        return holidays.stream()
                .filter(holiday -> holiday.day().equals(day))
                .filter(holiday ->
                        holiday.facilityId() == null || holiday.facilityId().equals(facilityId))
                .findFirst();
    }

    private static void add(List<WorkDay> found, LocalDate day, WorkingHours hours, ZoneId zone) {
        if (hours.day().ordinal() != day.getDayOfWeek().ordinal()) {
            return;
        }
        var from = at(day, hours.from(), zone);
        var to = at(day, hours.until(), zone);
        var last = found.isEmpty() ? null : found.get(found.size() - 1);
        if (last != null && last.to().equals(from) && last.day().equals(day)) {
            found.set(found.size() - 1, new WorkDay(day, last.from(), to));
        } else if (from.isBefore(to)) {
            // hours that the clock leaps over are not worked
            found.add(new WorkDay(day, from, to));
        }
    }

    private static Instant at(LocalDate day, String time, ZoneId zone) {
        var minutes = WeekChecks.minutes(time);
        return minutes == 24 * 60
                ? day.plusDays(1).atStartOfDay(zone).toInstant()
                : day.atTime(minutes / 60, minutes % 60).atZone(zone).toInstant();
    }
}
