package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A reason behind a readiness.
 *
 * @param weight what this reason alone would make of the room
 * @param code stable word for programs, e.g. moved, no-baseline, not-matched
 * @param text for people
 */
public record Reason(
        ReadinessState weight,
        String code,
        String text,
        @Nullable String display,
        @Nullable String preset,
        @Nullable UUID alertId,
        @Nullable Instant since) {}
