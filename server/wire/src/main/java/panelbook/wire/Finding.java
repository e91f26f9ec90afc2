package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One rule applied to one preset.
 *
 * @param preset path
 * @param runId the run that brought it
 * @param value in the unit of the metric
 * @param uncertainty standard uncertainty of value; null where there is none to state
 * @param conformance probability that the true value is inside the limit
 * @param explanation in words: who moved, how much each explains
 * @param readings what it rests on
 * @param corrections of the meters that it rests on, by name, place and version
 * @param basis of the limit
 */
public record Finding(
        UUID id,
        UUID presetId,
        String preset,
        @Nullable UUID runId,
        @Nullable UUID matchId,
        Rule rule,
        Metric metric,
        double value,
        double limit,
        String unit,
        @Nullable Double uncertainty,
        @Nullable Double conformance,
        Decision decision,
        String explanation,
        List<ReadingRef> readings,
        List<String> corrections,
        UUID toleranceSetId,
        String toleranceSet,
        long toleranceSetVersion,
        Basis basis,
        @Nullable String document,
        @Nullable String clause,
        Instant assessedAt) {}
