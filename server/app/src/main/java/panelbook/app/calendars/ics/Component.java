package panelbook.app.calendars.ics;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A component of a calendar (RFC 5545, 3.4 and 3.6).
 *
 * @param line of its BEGIN
 */
record Component(String name, int line, List<ContentLine> lines, List<Component> parts) {

    private static final int DEEPEST = 8;
    private static final String CALENDAR = "VCALENDAR";

    /** The calendars of a text, one or more. */
    static List<Component> calendars(List<ContentLine> lines) throws UnreadableCalendarException {
        var calendars = new ArrayList<Component>();
        var at = 0;
        while (at < lines.size()) {
            var reading = new Reading(lines, at);
            calendars.add(reading.component(0));
            at = reading.at;
        }
        for (var calendar : calendars) {
            if (!calendar.name().equals(CALENDAR)) {
                throw new UnreadableCalendarException(calendar.line(), "Here BEGIN:VCALENDAR belongs.");
            }
        }
        if (calendars.isEmpty()) {
            throw new UnreadableCalendarException(1, "This is no calendar: it begins with BEGIN:VCALENDAR.");
        }
        return calendars;
    }

    /** The parts of a kind. */
    List<Component> parts(String kind) {
        return parts.stream().filter(part -> part.name().equals(kind)).toList();
    }

    /** The lines of a property. */
    List<ContentLine> all(String property) {
        return lines.stream().filter(line -> line.name().equals(property)).toList();
    }

    /** The first line of a property. */
    Optional<ContentLine> first(String property) {
        return lines.stream().filter(line -> line.name().equals(property)).findFirst();
    }

    /** The line of a property that must be there. */
    ContentLine needed(String property) throws UnreadableCalendarException {
        var found = first(property);
        if (found.isEmpty()) {
            throw new UnreadableCalendarException(line, "This " + name + " has no " + property + ".");
        }
        return found.get();
    }

    private static final class Reading {

        private final List<ContentLine> lines;
        private int at;

        private Reading(List<ContentLine> lines, int at) {
            this.lines = lines;
            this.at = at;
        }

        private Component component(int depth) throws UnreadableCalendarException {
            var begin = lines.get(at);
            if (!begin.name().equals("BEGIN") || depth > DEEPEST) {
                throw new UnreadableCalendarException(
                        begin.number(),
                        depth > DEEPEST ? "Components lie too deep in each other." : "Here BEGIN:VCALENDAR belongs.");
            }
            at++;
            var component = new Component(
                    begin.value().strip().toUpperCase(Locale.ROOT),
                    begin.number(),
                    new ArrayList<>(),
                    new ArrayList<>());
            while (at < lines.size() && !lines.get(at).name().equals("END")) {
                if (lines.get(at).name().equals("BEGIN")) {
                    component.parts().add(component(depth + 1));
                } else {
                    component.lines().add(lines.get(at));
                    at++;
                }
            }
            end(component);
            return component;
        }

        private void end(Component component) throws UnreadableCalendarException {
            if (at == lines.size()) {
                throw new UnreadableCalendarException(
                        lines.get(at - 1).number(),
                        "The text ends before END:" + component.name() + ": it was cut short.");
            }
            var end = lines.get(at);
            if (!end.value().strip().equalsIgnoreCase(component.name())) {
                throw new UnreadableCalendarException(
                        end.number(),
                        "Here END:" + component.name() + " belongs, for the BEGIN of line " + component.line() + ".");
            }
            at++;
        }
    }
}
