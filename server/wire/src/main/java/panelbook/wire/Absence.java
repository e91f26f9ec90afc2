package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Days on which a calibrator is away.
 *
 * @param calibrator name
 * @param toDay the last day away
 * @param recordedBy holder of the token
 * @param cancelledAt null while it holds
 */
public record Absence(
        UUID id,
        UUID calibratorId,
        String calibrator,
        LocalDate fromDay,
        LocalDate toDay,
        @Nullable String reason,
        Instant recordedAt,
        String recordedBy,
        @Nullable Instant cancelledAt,
        @Nullable String cancelledBy) {}
