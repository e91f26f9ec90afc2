package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The time of a plan in whole minutes from the start of its first day.
 *
 * @param zone whose days the plan counts
 * @param until last day
 */
record Axis(ZoneId zone, LocalDate from, LocalDate until) {

    Instant start() {
        return from.atStartOfDay(zone).toInstant();
    }

    Instant end() {
        return until.plusDays(1).atStartOfDay(zone).toInstant();
    }

    int days() {
        return (int) ChronoUnit.DAYS.between(from, until) + 1;
    }

    /** Minutes from the start at which each day starts; days are longer or shorter where the clocks change. */
    List<Integer> dayStarts() {
        return IntStream.range(0, days())
                .mapToObj(day -> minute(from.plusDays(day).atStartOfDay(zone).toInstant()))
                .toList();
    }

    /** The middle of a day. */
    Instant middle(int day) {
        var dayFrom = from.plusDays(day).atStartOfDay(zone).toInstant();
        var dayTo = from.plusDays(day + 1L).atStartOfDay(zone).toInstant();
        return dayFrom.plus(Duration.between(dayFrom, dayTo).dividedBy(2));
    }

    /** The day on which an instant lies; those before the first count to it, those after the last to that. */
    int day(Instant at) {
        var day = (int) ChronoUnit.DAYS.between(from, LocalDate.ofInstant(at, zone));
        return Math.max(0, Math.min(days() - 1, day));
    }

    /** The last whole minute not after an instant. */
    int minute(Instant at) {
        return (int) Math.floorDiv(Duration.between(start(), at).getSeconds(), 60L);
    }

    /** The first whole minute, of which there are {@code step} from one to the next, not before an instant. */
    int minuteAfter(Instant at, int step) {
        var seconds = Duration.between(start(), at).plusNanos(999_999_999).getSeconds();
        return (int) (-Math.floorDiv(-seconds, 60L * step) * step);
    }

    Instant at(int minute) {
        return start().plus(Duration.ofMinutes(minute));
    }
}
