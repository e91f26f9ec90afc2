package panelbook.app.matching;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;

/** Days, UTC. */
final class DayWords {

    private DayWords() {}

    /** The day of an instant. */
    static LocalDate day(Instant at) {
        return at.atOffset(ZoneOffset.UTC).toLocalDate();
    }
}
