package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A day on which nobody works: neither the calibrators of a facility nor anybody in its rooms.
 *
 * @param facility name; null for every facility
 * @param recordedBy holder of the token
 * @param cancelledAt null while it holds
 */
public record Holiday(
        UUID id,
        @Nullable UUID facilityId,
        @Nullable String facility,
        LocalDate day,
        String name,
        Instant recordedAt,
        String recordedBy,
        @Nullable Instant cancelledAt,
        @Nullable String cancelledBy) {}
