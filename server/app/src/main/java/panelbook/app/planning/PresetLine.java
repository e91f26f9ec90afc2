package panelbook.app.planning;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What has to be known of a preset to look ahead.
 *
 * @param path facility/room/display/preset
 * @param baselineAt when the run of its baseline was taken
 * @param luminanceLimitPercent of the tolerance set, change since it was left, magnitude
 * @param whiteLimit of the tolerance set, u'v'
 */
record PresetLine(
        UUID presetId,
        UUID displayId,
        String path,
        boolean hero,
        @Nullable UUID baselineRunId,
        @Nullable Instant baselineAt,
        @Nullable UUID baselineInstrumentId,
        String toleranceSet,
        @Nullable Integer recalibrationDays,
        @Nullable Integer recalibrationPanelHours,
        @Nullable Double luminanceLimitPercent,
        @Nullable Double whiteLimit) {}
