package panelbook.app.planning;

import java.time.Instant;

/**
 * A stretch of time.
 *
 * @param to excluded
 */
record Stretch(Instant from, Instant to) {

    boolean meets(Instant otherFrom, Instant otherTo) {
        return from.isBefore(otherTo) && otherFrom.isBefore(to);
    }
}
