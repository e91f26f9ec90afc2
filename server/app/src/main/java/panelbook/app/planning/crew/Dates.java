package panelbook.app.planning.crew;

import java.time.LocalDate;

/** Days that somebody may mean. */
final class Dates {

    static final String WORDS = "Must be a date of this age.";

    private Dates() {}

    static boolean sensible(LocalDate day) {
        return day.getYear() >= 1970 && day.getYear() < 10_000;
    }
}
