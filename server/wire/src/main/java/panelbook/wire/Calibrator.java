package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Somebody who makes visits.
 *
 * @param name unique
 * @param homeFacility its name
 * @param timeZone IANA name, of the home facility
 * @param skills panel technologies that they calibrate; none means all
 * @param week working hours in that time zone; travel lies within them
 * @param version ETag
 */
public record Calibrator(
        UUID id,
        String name,
        UUID homeFacilityId,
        String homeFacility,
        String timeZone,
        List<String> skills,
        List<WorkingHours> week,
        @Nullable Instant retiredAt,
        long version) {}
