package panelbook.app.calendars.ics;

import java.time.Instant;
import java.time.LocalDateTime;

/**
 * A DATE or DATE-TIME (RFC 5545, 3.3.4 and 3.3.5).
 *
 * @param day whether it is a whole day, which starts at {@code time}
 * @param floating whether it goes by the clock of whoever looks, here that of the room
 * @param zone of the clock
 */
record Moment(boolean day, boolean floating, LocalDateTime time, Zone zone) {

    /** When that is. */
    Instant instant() {
        return zone.instant(time);
    }
}
