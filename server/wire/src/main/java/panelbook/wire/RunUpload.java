package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A run to be stored and judged.
 *
 * @param id made from the content, so that a repeat is the same run
 * @param operator who took it
 * @param panelHours counter, h
 * @param baselineReason for an as-left run that is to be the baseline although it does not verify: why
 * @param readings in the order measured; no patch twice
 */
public record RunUpload(
        UUID id,
        UUID presetId,
        UUID instrumentId,
        Purpose purpose,
        String operator,
        Instant takenAt,
        @Nullable Double panelHours,
        @Nullable Integer minutesSincePowerOn,
        @Nullable Double ambientIlluminanceLux,
        @Nullable String fileName,
        @Nullable String remarks,
        @Nullable String baselineReason,
        List<ReadingEntry> readings) {}
