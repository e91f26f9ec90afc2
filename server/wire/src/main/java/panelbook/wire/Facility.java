package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A facility.
 *
 * @param name unique
 * @param timeZone IANA name
 * @param version ETag
 */
public record Facility(
        UUID id, String name, String timeZone, @Nullable Instant retiredAt, long version) {}
