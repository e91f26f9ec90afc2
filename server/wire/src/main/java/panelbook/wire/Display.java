package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A display.
 *
 * @param facility its name
 * @param roomId null when it stands in no room
 * @param room name of that room
 * @param name unique in the facility
 * @param panelTechnology e.g. oled, lcd, dual-layer lcd, led wall, projector
 * @param panelHours latest known, h
 * @param version ETag
 */
public record Display(
        UUID id,
        UUID facilityId,
        String facility,
        @Nullable UUID roomId,
        @Nullable String room,
        String name,
        String model,
        String panelTechnology,
        @Nullable String serialNumber,
        @Nullable String notes,
        @Nullable Double panelHours,
        @Nullable Instant retiredAt,
        long version) {}
