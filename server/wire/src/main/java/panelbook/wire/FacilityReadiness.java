package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;

/**
 * Readiness of all rooms of a facility.
 *
 * @param rooms from the worst to the best
 */
public record FacilityReadiness(
        UUID facilityId,
        String facility,
        Instant at,
        int ready,
        int readyWithRemarks,
        int notReady,
        List<RoomReadiness> rooms) {}
