package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Another time or another calibrator for a visit, which is pinned there.
 *
 * @param startsAt of the work
 * @param calibratorId null for the same
 * @param insist whether to move it although a booking, an absence, a holiday, working hours, skills, travel or a proposed
 *     visit speaks against it; needs a reason
 */
public record VisitMove(
        Instant startsAt,
        @Nullable UUID calibratorId,
        @Nullable String reason,
        boolean insist) {}
