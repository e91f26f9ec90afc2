package panelbook.app.assessment;

import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Basis;
import panelbook.wire.Metric;

/**
 * A revision of a tolerance set.
 *
 * @param hysteresis share of the limit by which a figure must be inside before an alert may close
 * @param conformanceProbability that a decision asks for
 * @param limits of the metrics that are judged
 */
record Tolerances(
        UUID setId,
        String setName,
        long revision,
        @Nullable Integer recalibrationDays,
        @Nullable Integer recalibrationPanelHours,
        double hysteresis,
        double conformanceProbability,
        Map<Metric, Limit> limits) {

    /** A limit and where it comes from. */
    record Limit(
            double value,
            Basis basis,
            @Nullable String document,
            @Nullable String clause) {}

    /** The limit of a metric; null when the set does not judge it. */
    @Nullable
    Limit limit(Metric metric) {
        return switch (metric) {
            case RECALIBRATION_DAYS -> house(recalibrationDays);
            case RECALIBRATION_PANEL_HOURS -> house(recalibrationPanelHours);
            default -> limits.get(metric);
        };
    }

    private static @Nullable Limit house(@Nullable Integer value) {
        return value == null ? null : new Limit(value, Basis.HOUSE_POLICY, null, null);
    }
}
