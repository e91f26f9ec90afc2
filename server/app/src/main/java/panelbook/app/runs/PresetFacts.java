package panelbook.app.runs;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.signal.Target;

/**
 * What has to be known of a preset to take in and judge a run on it.
 *
 * @param path facility/room/display/preset
 * @param model of its display
 * @param panelTechnology of its display
 * @param retiredAt when it or its display was taken out of use, or null
 * @param warmUpMinutes that its tolerance set asks for
 */
public record PresetFacts(
        UUID presetId,
        String path,
        UUID displayId,
        @Nullable UUID roomId,
        UUID facilityId,
        String model,
        String panelTechnology,
        UUID targetId,
        long targetRevision,
        Target target,
        UUID toleranceSetId,
        long toleranceSetRevision,
        int warmUpMinutes,
        @Nullable Instant retiredAt) {

    /** Whether it or its display was taken out of use. */
    public boolean retired() {
        return retiredAt != null;
    }
}
