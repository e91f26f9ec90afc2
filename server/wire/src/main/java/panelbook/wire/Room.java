package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A room of a facility.
 *
 * @param facility its name
 * @param name unique in the facility
 * @param timeZone IANA name
 * @param version ETag
 */
public record Room(
        UUID id,
        UUID facilityId,
        String facility,
        String name,
        String timeZone,
        @Nullable Instant retiredAt,
        long version) {}
