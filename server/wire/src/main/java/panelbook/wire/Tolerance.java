package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * A limit and where it comes from.
 *
 * @param limit in the unit of the metric
 * @param document required unless house policy
 */
public record Tolerance(
        Metric metric,
        double limit,
        Basis basis,
        @Nullable String document,
        @Nullable String clause,
        @Nullable String note) {}
