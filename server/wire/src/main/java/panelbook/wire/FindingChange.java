package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * A finding as it stands and as it would.
 *
 * @param before null when it does not stand now
 * @param valueBefore in the unit of the metric
 * @param after null when it would stand no longer
 * @param valueAfter in the unit of the metric
 */
public record FindingChange(
        Metric metric,
        String unit,
        @Nullable Decision before,
        @Nullable Double valueBefore,
        @Nullable Decision after,
        @Nullable Double valueAfter) {}
