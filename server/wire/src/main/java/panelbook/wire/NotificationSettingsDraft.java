package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * When people of a facility are to be told of its alerts.
 *
 * @param escalateAfterMinutes 1 to 525600; never when null
 * @param remindEveryMinutes 5 to 525600; never when null
 * @param summaryOver 1 to 1000. Too small: a pair of alerts comes as a list. Too large: a bad night is a hundred mails
 * @param gatherSeconds 0 to 3600. Too small: a burst comes in pieces. Too large: people hear of it late
 */
public record NotificationSettingsDraft(
        @Nullable Integer escalateAfterMinutes,
        @Nullable Integer remindEveryMinutes,
        int summaryOver,
        int gatherSeconds) {}
