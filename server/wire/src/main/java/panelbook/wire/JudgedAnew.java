package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset that was judged anew, since something that it rested on was put right.
 *
 * @param preset path
 * @param baselineRunId run of the baseline now, null when it has none
 * @param baselineAt when that run was taken
 * @param runId the run that shows how it stands now, null when there is none
 * @param decision worst of what stands on it now
 */
public record JudgedAnew(
        UUID presetId,
        String preset,
        @Nullable UUID baselineRunId,
        @Nullable Instant baselineAt,
        @Nullable UUID runId,
        Decision decision) {}
