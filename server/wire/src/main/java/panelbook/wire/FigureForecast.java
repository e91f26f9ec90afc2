package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The forecast of one figure of a preset.
 *
 * @param metric whose limit is watched: own-drift-luminance or own-drift-white
 * @param unit of values, reference and limit: cd/m², or the distance in u′v′ from the white it was left with
 * @param explanation the answer in words
 * @param reference what the preset was left with
 * @param limit the value that is not to be crossed
 * @param segmentStart why the readings that it rests on begin where they do
 * @param readings how many it rests on
 * @param points all that was measured, oldest first
 * @param fit the line or curve with its band; empty where there is none
 * @param expected crossing as expected; null where it lies beyond the horizon
 * @param earliest not crossed before this with 90 %
 * @param horizonPanelHours counter beyond which nothing is said, h
 */
public record FigureForecast(
        Metric metric,
        String unit,
        ForecastAnswer answer,
        String explanation,
        @Nullable Double reference,
        @Nullable Double limit,
        @Nullable SegmentStart segmentStart,
        int readings,
        List<ForecastPoint> points,
        List<ForecastValue> fit,
        @Nullable ForecastCrossing expected,
        @Nullable ForecastCrossing earliest,
        @Nullable Double horizonPanelHours) {}
