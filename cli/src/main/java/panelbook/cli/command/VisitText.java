package panelbook.cli.command;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Locale;
import panelbook.wire.Visit;
import panelbook.wire.VisitWork;
import panelbook.wire.Work;

/** Visits in words, by the clock of their rooms. */
final class VisitText {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE uuuu-MM-dd", Locale.ENGLISH);
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private VisitText() {}

    static LocalDate date(Instant at, String zone) {
        return LocalDate.ofInstant(at, ZoneId.of(zone));
    }

    static String day(Instant at, String zone) {
        return DAY.format(at.atZone(ZoneId.of(zone)));
    }

    static String clock(Instant at, String zone) {
        return CLOCK.format(at.atZone(ZoneId.of(zone)));
    }

    static String time(Instant at, String zone) {
        return day(at, zone) + " " + clock(at, zone);
    }

    /** What is done, and what speaks against it. */
    static String summary(Visit visit) {
        var presets = visit.work().stream().map(VisitWork::presetId).distinct().count();
        var recalibrated = visit.work().stream()
                .filter(work -> work.work() == Work.RECALIBRATION)
                .count();
        var matched =
                visit.work().stream().filter(work -> work.work() == Work.MATCH).count();
        var parts = new ArrayList<String>();
        parts.add(presets + (presets == 1 ? " preset" : " presets"));
        if (recalibrated > 0) {
            parts.add(recalibrated + " to recalibrate");
        }
        if (matched > 0) {
            parts.add(matched + " to match");
        }
        parts.add("switch on at " + clock(visit.warmUpFrom(), visit.timeZone()));
        return String.join(", ", parts)
                + (visit.remarks().isEmpty() ? "" : ". Mind: " + String.join(" ", visit.remarks()));
    }
}
