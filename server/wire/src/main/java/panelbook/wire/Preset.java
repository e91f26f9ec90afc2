package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset of a display.
 *
 * @param display its name
 * @param room name of the room it stands in
 * @param facility its name
 * @param name unique on the display
 * @param target its name
 * @param hero whether it is the hero of its room for its target
 * @param baselineRunId run of the baseline in force
 * @param baselineAt when that run was taken
 * @param version ETag
 */
public record Preset(
        UUID id,
        UUID displayId,
        String display,
        @Nullable String room,
        String facility,
        String name,
        UUID targetId,
        String target,
        boolean hero,
        @Nullable UUID baselineRunId,
        @Nullable Instant baselineAt,
        @Nullable Instant retiredAt,
        long version) {}
