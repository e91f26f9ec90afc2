package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;

/**
 * The readiness of a room over a period, as the service said it at each moment of it.
 *
 * @param from start of the period, inclusive
 * @param to end of the period, exclusive; never later than now
 * @param spans one after the other, without gaps, from {@code from} to {@code to}; empty where the room was not in the book yet or
 *     no longer
 */
public record ReadinessHistory(
        UUID roomId, String facility, String room, Instant from, Instant to, List<ReadinessSpan> spans) {}
