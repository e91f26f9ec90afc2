package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * When people of a facility are told of its alerts.
 *
 * @param escalateAfterMinutes an alert that nobody acknowledged for so long is escalated; never when null
 * @param remindEveryMinutes of an alert that nobody acknowledged; never when null
 * @param summaryOver more events than these at once make one summary instead of a message each
 * @param gatherSeconds how long events are gathered before the first of them is told
 * @param houseDefaults nobody set anything for this facility
 * @param version ETag; 0 for the house's defaults
 */
public record NotificationSettings(
        UUID facilityId,
        @Nullable Integer escalateAfterMinutes,
        @Nullable Integer remindEveryMinutes,
        int summaryOver,
        int gatherSeconds,
        boolean houseDefaults,
        long version) {}
