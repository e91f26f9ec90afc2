package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * How long it takes from one facility to another, either way.
 *
 * @param oneFacility name, the earlier of the two
 * @param minutes null where nobody said: then nobody travels between the two
 * @param version ETag; 0 where nobody said
 */
public record TravelTime(
        UUID oneFacilityId,
        String oneFacility,
        UUID otherFacilityId,
        String otherFacility,
        @Nullable Integer minutes,
        long version) {}
