package panelbook.app.runs;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Purpose;

/**
 * A run as the book holds it, without its readings.
 *
 * @param warmedUp null when the time since power-on was not given
 * @param panelHours counter, h
 */
public record StoredRun(
        UUID id,
        UUID presetId,
        UUID instrumentId,
        Purpose purpose,
        Instant takenAt,
        Instant receivedAt,
        @Nullable Double panelHours,
        @Nullable Boolean warmedUp,
        int readingCount) {}
