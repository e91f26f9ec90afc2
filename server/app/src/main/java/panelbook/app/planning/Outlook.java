package panelbook.app.planning;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.forecast.Trend;
import panelbook.wire.ForecastAnswer;
import panelbook.wire.ForecastPoint;
import panelbook.wire.Metric;
import panelbook.wire.SegmentStart;

/**
 * What the series of one figure says.
 *
 * @param points in the unit of the figure, oldest first
 * @param from since when and why the readings that it rests on count; null when there are none
 * @param trend null where there is none
 * @param limit in the unit of the figure
 * @param expectedHours counter at the crossing as expected, h; null where there is none
 * @param earliestHours counter before which it is not crossed with 90 %, h; null where there is none
 * @param horizonHours counter beyond which nothing is said, h
 */
record Outlook(
        Metric metric,
        ForecastAnswer answer,
        List<ForecastPoint> points,
        @Nullable From from,
        @Nullable Trend trend,
        @Nullable Double reference,
        @Nullable Double limit,
        @Nullable Double expectedHours,
        @Nullable Double earliestHours,
        @Nullable Double horizonHours,
        String why) {

    /**
     * The readings that a forecast rests on.
     *
     * @param firstHours counter at the first, h
     * @param lastHours counter at the last, h
     */
    record From(
            SegmentStart start,
            int readings,
            double firstHours,
            double lastHours,
            java.time.Instant firstAt,
            java.time.Instant lastAt) {}

    boolean luminance() {
        return metric == Metric.OWN_DRIFT_LUMINANCE;
    }
}
