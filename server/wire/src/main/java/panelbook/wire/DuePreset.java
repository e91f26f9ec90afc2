package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset and when somebody should come for it.
 *
 * @param preset facility/room/display/preset
 * @param timeZone IANA name, of its room
 * @param hero whether it is the hero of its room for its target
 * @param dueAt the earliest date of its rules; null when no rule gives any
 * @param due whether that has come
 * @param rules earliest first
 */
public record DuePreset(
        UUID presetId,
        String preset,
        String timeZone,
        boolean hero,
        @Nullable Instant dueAt,
        boolean due,
        List<DueRule> rules) {}
