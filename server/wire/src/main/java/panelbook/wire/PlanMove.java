package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A proposed visit that a plan laid elsewhere.
 *
 * @param room facility/room
 * @param toCalibrator null when the plan dropped it
 */
public record PlanMove(
        UUID visitId,
        String room,
        String fromCalibrator,
        Instant fromStart,
        @Nullable String toCalibrator,
        @Nullable Instant toStart) {}
