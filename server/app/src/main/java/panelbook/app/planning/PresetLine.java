package panelbook.app.planning;

import java.time.Instant;
import java.time.ZoneId;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What has to be known of a preset to look ahead.
 *
 * @param path facility/room/display/preset
 * @param facilityId where the display belongs
 * @param roomId where it stands; null when nowhere
 * @param room facility/room
 * @param zone of the room, or of the facility when it stands nowhere
 * @param warmUpMinutes that the tolerance set asks for
 * @param baselineAt when the run of its baseline was taken
 * @param luminanceLimitPercent of the tolerance set, change since it was left, magnitude
 * @param whiteLimit of the tolerance set, u'v'
 */
record PresetLine(
        UUID presetId,
        UUID displayId,
        String path,
        UUID facilityId,
        @Nullable UUID roomId,
        String room,
        ZoneId zone,
        String model,
        String panelTechnology,
        int warmUpMinutes,
        boolean hero,
        @Nullable UUID baselineRunId,
        @Nullable Instant baselineAt,
        @Nullable UUID baselineInstrumentId,
        String toleranceSet,
        @Nullable Integer recalibrationDays,
        @Nullable Integer recalibrationPanelHours,
        @Nullable Double luminanceLimitPercent,
        @Nullable Double whiteLimit) {}
