package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A run as stored.
 *
 * @param preset path: facility/room/display/preset
 * @param instrument its name
 * @param operator who took it
 * @param panelHours counter, h
 * @param warmedUp null when the time since power-on was not given
 * @param baseline whether it is or was a baseline that holds
 * @param receivedFrom holder of the token
 * @param withdrawn why it counts no longer, null when it counts
 */
public record Run(
        UUID id,
        UUID presetId,
        UUID instrumentId,
        String preset,
        String instrument,
        Purpose purpose,
        String operator,
        Instant takenAt,
        @Nullable Double panelHours,
        @Nullable Integer minutesSincePowerOn,
        @Nullable Double ambientIlluminanceLux,
        @Nullable String fileName,
        @Nullable String remarks,
        @Nullable Boolean warmedUp,
        int readingCount,
        boolean baseline,
        Instant receivedAt,
        String receivedFrom,
        @Nullable Withdrawal withdrawn) {}
