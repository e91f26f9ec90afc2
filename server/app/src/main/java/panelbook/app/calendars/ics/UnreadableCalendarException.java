package panelbook.app.calendars.ics;

import java.util.List;
import java.util.stream.Collectors;

/** A calendar that cannot be read, with each place where it cannot. It never quotes the calendar, whose words are private. */
public final class UnreadableCalendarException extends Exception {

    private final List<Fault> faults;

    /**
     * What is wrong.
     *
     * @param line of the text, from 1
     * @param detail what is wrong and what belongs there
     */
    public record Fault(int line, String detail) {}

    UnreadableCalendarException(int line, String detail) {
        this(List.of(new Fault(line, detail)));
    }

    UnreadableCalendarException(List<Fault> faults) {
        super(faults.stream()
                .map(fault -> "line " + fault.line() + ": " + fault.detail())
                .collect(Collectors.joining("; ")));
        this.faults = List.copyOf(faults);
    }

    /** One or more, by line. */
    public List<Fault> faults() {
        return faults;
    }
}
