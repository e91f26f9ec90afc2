package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;

/**
 * Readiness of a room at a moment.
 *
 * @param reasons worst first; empty only when ready
 */
public record RoomReadiness(
        UUID roomId, String facility, String room, ReadinessState state, Instant at, List<Reason> reasons) {}
