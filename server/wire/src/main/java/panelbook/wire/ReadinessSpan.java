package panelbook.wire;

import java.time.Instant;
import java.util.List;

/**
 * A time over which the readiness of a room and the reasons behind it stayed as they were.
 *
 * @param from inclusive
 * @param to exclusive
 * @param reasons worst first, as at {@code from}
 * @param changes what made it so at {@code from}; empty for the first span
 */
public record ReadinessSpan(
        Instant from, Instant to, ReadinessState state, List<Reason> reasons, List<ReadinessChange> changes) {}
