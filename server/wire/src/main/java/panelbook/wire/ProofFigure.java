package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A judged figure on a proof.
 *
 * @param value in the unit
 * @param expandedUncertainty k = 2, in the unit; null where there is none to state
 * @param limit in the unit
 * @param lowerLimit whether the limit is the least that is tolerated rather than the most
 * @param conformance probability that the true value is inside the limit
 * @param explanation in words
 * @param corrections of the meters that it rests on
 * @param basis of the limit
 * @param document the limit's, unless house policy
 */
public record ProofFigure(
        UUID findingId,
        Rule rule,
        Metric metric,
        double value,
        String unit,
        @Nullable Double expandedUncertainty,
        double limit,
        boolean lowerLimit,
        @Nullable Double conformance,
        Decision decision,
        String explanation,
        @Nullable UUID matchId,
        List<String> corrections,
        Basis basis,
        @Nullable String document,
        @Nullable String clause,
        Instant assessedAt) {}
