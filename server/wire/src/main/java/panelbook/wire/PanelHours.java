package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A value of the panel-hours counter.
 *
 * @param hours counter, h
 * @param runId the run that brought it, if one did
 */
public record PanelHours(
        Instant at,
        double hours,
        @Nullable UUID runId,
        @Nullable String note,
        String recordedBy) {}
