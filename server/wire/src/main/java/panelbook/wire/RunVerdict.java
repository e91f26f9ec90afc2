package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The answer to an upload; a repeat of the upload gets the first answer.
 *
 * @param preset path
 * @param decision worst of the findings on this run's preset and, for a hero, its followers
 * @param baselineNote why it became the baseline or did not
 * @param alerts alerts that this run opened, updated or closed
 * @param diagnosis of its grey ramp; null when it holds none of five levels or more
 */
public record RunVerdict(
        UUID runId,
        String preset,
        Purpose purpose,
        Decision decision,
        @Nullable Boolean warmedUp,
        boolean becameBaseline,
        String baselineNote,
        List<Finding> findings,
        List<AlertNotice> alerts,
        int readingCount,
        @Nullable Diagnosis diagnosis) {}
