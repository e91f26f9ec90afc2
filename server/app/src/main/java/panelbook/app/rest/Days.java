package panelbook.app.rest;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;

/** Days, UTC. */
public final class Days {

    private Days() {}

    /** The day of an instant. */
    public static LocalDate of(Instant at) {
        return at.atOffset(ZoneOffset.UTC).toLocalDate();
    }
}
