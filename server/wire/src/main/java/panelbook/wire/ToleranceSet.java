package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A named set of limits.
 *
 * @param name unique
 * @param warmUpMinutes a run taken earlier after power-on cannot become a baseline
 * @param hysteresis 0 to 1: an alert closes only at limit × (1 − hysteresis) or better
 * @param conformanceProbability 0.5 to 1: sets the guard band, JCGM 106
 * @param tolerances a metric that is not listed is not judged
 * @param version ETag; findings name it
 */
public record ToleranceSet(
        UUID id,
        String name,
        String description,
        int warmUpMinutes,
        @Nullable Integer recalibrationDays,
        @Nullable Integer recalibrationPanelHours,
        double hysteresis,
        double conformanceProbability,
        List<Tolerance> tolerances,
        @Nullable Instant retiredAt,
        long version) {}
